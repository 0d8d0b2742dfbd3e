package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.sideport.model.CaseSummary;
import org.sideport.model.ConsentState;
import org.sideport.workflow.CaseFilter.State;

class CaseFilterTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 9);

    private static final CaseSummary ONE = new CaseSummary(
            "C-1",
            "T03",
            DAY,
            "phaco",
            60_000_000L,
            1,
            List.of("B1"),
            List.of("A1"),
            false,
            true,
            false,
            ConsentState.ASKED,
            DAY.plusYears(1),
            CaseSummary.searchText("C-1", "T03", "2026-03-09", "left\nsmall", List.of("B1"), List.of("A1")));

    private static CaseFilter words(String words) {
        return new CaseFilter(words, null, null, null, Set.of(), null, null, Set.of(), null);
    }

    private static CaseFilter states(State... states) {
        return new CaseFilter("", null, null, null, Set.of(states), null, null, Set.of(), null);
    }

    private static CaseFilter days(LocalDate from, LocalDate to) {
        return new CaseFilter("", null, from, to, Set.of(), null, null, Set.of(), null);
    }

    @Test
    void everyWordMustOccurSomewhere() {
        assertThat(CaseFilter.ALL.accepts(ONE)).isTrue();
        assertThat(words("  SMALL t03 a1 2026-03 ").accepts(ONE)).isTrue();
        assertThat(words("small t04").accepts(ONE)).isFalse();
    }

    @Test
    void daysAreTakenWithBothEnds() {
        assertThat(days(DAY, DAY).accepts(ONE)).isTrue();
        assertThat(days(DAY.plusDays(1), null).accepts(ONE)).isFalse();
        assertThat(days(null, DAY.minusDays(1)).accepts(ONE)).isFalse();
    }

    @Test
    void statesMustAllHold() {
        assertThat(states(State.TAGGED, State.UNSIGNED, State.MARKED).accepts(ONE))
                .isTrue();
        assertThat(states(State.TAGGED, State.SELF_MARKED).accepts(ONE)).isFalse();
        assertThat(states(State.SIGNED).accepts(ONE)).isFalse();
        assertThat(states(State.UNMARKED).accepts(ONE)).isFalse();
        assertThat(states(State.UNTAGGED).accepts(ONE)).isFalse();
    }

    @Test
    void ofConsentsAnyMayHoldAndPartsCombine() {
        CaseFilter agreed = new CaseFilter(
                "left",
                "T03",
                null,
                null,
                Set.of(),
                true,
                "phaco",
                Set.of(ConsentState.ASKED, ConsentState.GIVEN),
                DAY.plusYears(1));
        assertThat(agreed.accepts(ONE)).isTrue();
        assertThat(new CaseFilter("", null, null, null, Set.of(), null, null, Set.of(ConsentState.GIVEN), null)
                        .accepts(ONE))
                .isFalse();
        assertThat(new CaseFilter("", null, null, null, Set.of(), false, null, Set.of(), null).accepts(ONE))
                .isFalse();
        assertThat(new CaseFilter("", null, null, null, Set.of(), null, null, Set.of(), DAY).accepts(ONE))
                .as("review not due yet")
                .isFalse();
    }
}
