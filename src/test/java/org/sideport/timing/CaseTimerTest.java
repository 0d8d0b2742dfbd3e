package org.sideport.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.CutState;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

/** Small tables worked by hand. */
class CaseTimerTest {

    /** A 0–10, idle 10–12, A 12–15, B 15–20, idle 20–26, A 26–27: all five answers differ. */
    private static final Tagging TABLE = new Tagging(
            TaggingStyle.START_AND_END,
            List.of(span("A", 0, 10), span("A", 12, 15), span("B", 15, 20), span("A", 26, 27)),
            List.of());

    @Test
    void activeTimeSpanEpisodesReturnsAndIdleAreFiveDifferentNumbers() {
        CaseTiming timing = CaseTimer.forAnyNames().time("X", "P", TABLE, null);
        // active 10 + 3 + 1 = 14; span 0 to 27; three spans; taken up again once after B; idle 10–12 lies inside A
        assertThat(timing.phases())
                .containsExactly(
                        new PhaseTiming("A", 14_000_000L, 27_000_000L, 3, 1, 2_000_000),
                        new PhaseTiming("B", 5_000_000L, 5_000_000L, 1, 0, 0));
        assertThat(timing.operatingUs()).isEqualTo(27_000_000);
        assertThat(timing.activeUs()).isEqualTo(19_000_000);
        assertThat(timing.idleUs()).isEqualTo(8_000_000);
        assertThat(timing.idleBetweenUs()).isEqualTo(6_000_000);
        assertThat(timing.order()).containsExactly("A", "B", "A");
    }

    @Test
    void stepsAddUpUnderTheirPhase() {
        CaseTiming timing = new CaseTimer(step -> "both", name -> false).time("X", "P", TABLE, null);
        assertThat(timing.phases()).containsExactly(new PhaseTiming("both", 19_000_000L, 27_000_000L, 4, 0, 8_000_000));
        assertThat(timing.idleBetweenUs()).isZero();
    }

    @Test
    void aRowForIdleTimeCountsAsIdle() {
        Tagging withIdle = new Tagging(
                TaggingStyle.START_AND_END,
                List.of(span("A", 0, 10), span("Idle", 10, 15), span("B", 15, 20)),
                List.of());
        CaseTiming timing = CaseTimer.forAnyNames().time("X", "P", withIdle, null);
        assertThat(timing.phases()).extracting(PhaseTiming::phase).containsExactly("A", "B");
        assertThat(timing.idleUs()).isEqualTo(5_000_000);
    }

    @Test
    void aCaseWithoutTagsHasNoTimes() {
        CaseTiming timing = CaseTimer.forAnyNames().time("X", "P", Tagging.EMPTY, null);
        assertThat(timing.phases()).isEmpty();
        assertThat(timing.operatingUs()).isNull();
    }

    @Test
    void summariesCountOnlyCasesThatHaveThePhase() {
        CaseTimer timer = CaseTimer.forAnyNames();
        Tagging onlyA = new Tagging(TaggingStyle.START_AND_END, List.of(span("A", 0, 4)), List.of());
        List<SummaryRow> rows = TimingSummary.of(
                List.of(timer.time("X", "P", TABLE, null), timer.time("Y", "P", onlyA, null)), t -> "");
        assertThat(rows).extracting(SummaryRow::phase).containsExactly("A", "B", SummaryRow.OPERATING);
        // A: 14 s and 4 s: mean 9, median 9, geometric mean sqrt(56) s
        assertThat(rows.get(0).activeUs().n()).isEqualTo(2);
        assertThat(rows.get(0).activeUs().mean()).isCloseTo(9e6, within(1e-6));
        assertThat(rows.get(0).activeUs().geometricMean()).isCloseTo(Math.sqrt(56) * 1e6, within(1e-3));
        assertThat(rows.get(1).activeUs().n()).isEqualTo(1);
        assertThat(rows.get(2).activeUs().median()).isCloseTo((27e6 + 4e6) / 2, within(1e-6));
    }

    /** TABLE with cuts: at 5 (inside A's first span), 11 (inside idle within A), 22 (idle between); 15 is a boundary. */
    @Test
    void timesAcrossAnAcceptedCutAreUnsureAndOthersAreNot() {
        assertThat(unsure(cut(5, 5, CutState.ACCEPTED)))
                .containsExactly(
                        new Unsure(true, true, false), new Unsure(false, false, false), new Unsure(true, true, false));
        assertThat(unsure(cut(11, 11, CutState.ACCEPTED)))
                .containsExactly(
                        new Unsure(false, true, true), new Unsure(false, false, false), new Unsure(false, true, true));
        assertThat(unsure(cut(22, 22, CutState.ACCEPTED)))
                .containsExactly(
                        new Unsure(false, true, false), new Unsure(false, false, false), new Unsure(false, true, true));
        // exactly on the boundary of A and B: neither lacks anything, only what runs over both
        assertThat(unsure(cut(15, 15, CutState.ACCEPTED)))
                .containsExactly(
                        new Unsure(false, true, false),
                        new Unsure(false, false, false),
                        new Unsure(false, true, false));
        // somewhere from 14.8 to 15.2: it may lie in either
        assertThat(unsure(Cut.proposed(micros(14.8), micros(15.2), CutKind.INSIDE_FILE, "seen")
                        .decided(CutState.ACCEPTED, "A1")))
                .containsExactly(
                        new Unsure(true, true, false), new Unsure(true, true, false), new Unsure(true, true, false));
        // after the last tag
        assertThat(unsure(cut(30, 30, CutState.ACCEPTED))).containsOnly(Unsure.NONE);
    }

    @Test
    void aCutThatIsOnlyProposedOrDismissedDoubtsNothing() {
        assertThat(unsure(cut(5, 5, CutState.PROPOSED))).containsOnly(Unsure.NONE);
        assertThat(unsure(cut(5, 5, CutState.DISMISSED))).containsOnly(Unsure.NONE);
    }

    @Test
    void summariesLeaveUnsureTimesOutAndCountTheirCases() {
        CaseTimer timer = CaseTimer.forAnyNames();
        List<Cut> cuts = List.of(cut(5, 5, CutState.ACCEPTED));
        List<SummaryRow> rows = TimingSummary.of(
                List.of(timer.time("X", "P", TABLE, null, cuts), timer.time("Y", "P", TABLE, null)), t -> "");
        // A and the operating time of X are unsure; B of X is sure
        assertThat(rows).extracting(SummaryRow::n).containsExactly(1, 2, 1);
        assertThat(rows).extracting(SummaryRow::unsure).containsExactly(1, 0, 1);
        List<SummaryRow> none = TimingSummary.of(List.of(timer.time("X", "P", TABLE, null, cuts)), t -> "");
        assertThat(none).extracting(SummaryRow::n).containsExactly(0, 1, 0);
        assertThat(none.get(0).activeUs()).isNull();
    }

    /** A second annotator whose spans avoid the cut has a sure time, and the case counts. */
    @Test
    void aCaseCountsWhereOneAnnotatorsTimeIsSure() {
        CaseTimer timer = CaseTimer.forAnyNames();
        List<Cut> cuts = List.of(cut(11, 11, CutState.ACCEPTED));
        Tagging overIt = new Tagging(TaggingStyle.START_AND_END, List.of(span("A", 0, 14)), List.of());
        List<SummaryRow> rows = TimingSummary.of(
                List.of(timer.time("X", "P", TABLE, null, cuts), timer.time("X", "Q", overIt, null, cuts)), t -> "");
        assertThat(rows.get(0).unsure()).isZero();
        assertThat(rows.get(0).activeUs().mean()).isCloseTo(14e6, within(1e-6));
    }

    private static List<Unsure> unsure(Cut cut) {
        CaseTiming timing = CaseTimer.forAnyNames().time("X", "P", TABLE, null, List.of(cut));
        return List.of(timing.phases().get(0).unsure(), timing.phases().get(1).unsure(), timing.unsure());
    }

    private static Cut cut(double from, double to, CutState state) {
        Cut proposed = Cut.proposed(micros(from), micros(to), CutKind.INSIDE_FILE, "seen");
        return state == CutState.PROPOSED ? proposed : proposed.decided(state, "A1");
    }

    private static MediaTime micros(double seconds) {
        return MediaTime.ofSeconds(seconds);
    }

    private static PhaseSpan span(String phase, long start, long end) {
        return new PhaseSpan(phase, MediaTime.ofMicros(start * 1_000_000), MediaTime.ofMicros(end * 1_000_000), null);
    }
}
