package org.sideport.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.timing.TimeMap.Kind;
import org.sideport.timing.TimeMap.Piece;
import org.sideport.timing.TimeMap.Place;

/**
 * One pair of operations by hand, in seconds.
 *
 * <pre>
 * left, 100 long    A 10 to 20, X 25 to 30, B 40 to 60
 * right, 90 long    A 5 to 25, B 35 to 45, Y 50 to 55
 *
 * left        right               because
 * 0   to 10   0      to 5         idle before the first phase
 * 10  to 20   5      to 25        A, twice as long on the right
 * 20  to 25   25     to 28 1/3    idle 15 left, 10 right: 5 of 15 are a third, and a third of 10 is 3 1/3
 * 25  to 30   28 1/3              X, which the right lacks
 * 30  to 40   28 1/3 to 35        the other two thirds
 * 40  to 60   35     to 45        B
 * 60  to 65   45     to 50        idle 40 on both sides, of which 5 come before Y
 * 65          50     to 55        Y, which the left lacks
 * 65  to 100  55     to 90        the rest
 * </pre>
 */
class TimeMapTest {

    private static final long THIRD = 28_333_333;

    private final TimeMap map = TimeMap.aligned(
            List.of(episode("A", 10, 20), episode("X", 25, 30), episode("B", 40, 60)),
            seconds(100),
            List.of(episode("A", 5, 25), episode("B", 35, 45), episode("Y", 50, 55)),
            seconds(90));

    private static Episode episode(String label, long from, long to) {
        return new Episode(label, from * 1_000_000, to * 1_000_000);
    }

    private static MediaTime seconds(double s) {
        return MediaTime.ofSeconds(s);
    }

    private static Piece piece(Kind kind, String label, long leftFrom, long leftTo, long rightFrom, long rightTo) {
        return new Piece(kind, label, leftFrom, leftTo, rightFrom, rightTo);
    }

    private static long s(long seconds) {
        return seconds * 1_000_000;
    }

    @Test
    void piecesAreThoseWorkedOutByHand() {
        assertThat(map.pieces())
                .containsExactly(
                        piece(Kind.IDLE, null, 0, s(10), 0, s(5)),
                        piece(Kind.PHASE, "A", s(10), s(20), s(5), s(25)),
                        piece(Kind.IDLE, null, s(20), s(25), s(25), THIRD),
                        piece(Kind.LEFT_ONLY, "X", s(25), s(30), THIRD, THIRD),
                        piece(Kind.IDLE, null, s(30), s(40), THIRD, s(35)),
                        piece(Kind.PHASE, "B", s(40), s(60), s(35), s(45)),
                        piece(Kind.IDLE, null, s(60), s(65), s(45), s(50)),
                        piece(Kind.RIGHT_ONLY, "Y", s(65), s(65), s(50), s(55)),
                        piece(Kind.IDLE, null, s(65), s(100), s(55), s(90)));
        assertThat(map.matched()).isEqualTo(2);
    }

    @Test
    void withinAPhaseTimeIsStretched() {
        assertThat(map.toRight(seconds(10)).time()).isEqualTo(seconds(5));
        assertThat(map.toRight(seconds(15)).time()).isEqualTo(seconds(15));
        assertThat(map.toRight(seconds(50)).time()).isEqualTo(seconds(40));
        assertThat(map.toRight(seconds(15)).piece().rate()).isEqualTo(2.0, within(1e-12));
        assertThat(map.toRight(seconds(50)).piece().rate()).isEqualTo(0.5, within(1e-12));
        assertThat(map.toLeft(seconds(40)).time()).isEqualTo(seconds(50));
    }

    @Test
    void whereTheRightLacksAPhaseItStandsStill() {
        Place early = map.toRight(seconds(25));
        Place late = map.toRight(MediaTime.ofMicros(29_999_999));

        assertThat(early.time().micros()).isEqualTo(THIRD);
        assertThat(late.time()).isEqualTo(early.time());
        assertThat(late.piece().kind()).isEqualTo(Kind.LEFT_ONLY);
        assertThat(late.piece().label()).isEqualTo("X");
        assertThat(late.piece().rate()).isZero();
    }

    @Test
    void whereTheLeftLacksAPhaseTheRightJumpsAndSaysOverWhat() {
        assertThat(map.toRight(MediaTime.ofMicros(64_999_999)).time().micros()).isEqualTo(49_999_999);
        Place after = map.toRight(seconds(65));

        assertThat(after.time()).isEqualTo(seconds(55));
        assertThat(after.skipped()).extracting(Piece::label).containsExactly("Y");
        assertThat(map.toRight(seconds(64)).skipped()).isEmpty();
        // seen from the right, the left stands still through Y
        assertThat(map.toLeft(seconds(52)).time()).isEqualTo(seconds(65));
        assertThat(map.toLeft(seconds(52)).piece().kind()).isEqualTo(Kind.LEFT_ONLY);
    }

    @Test
    void beyondTheEndItStaysAtTheEnd() {
        assertThat(map.toRight(seconds(100)).time()).isEqualTo(seconds(90));
        assertThat(map.toRight(seconds(5000)).time()).isEqualTo(seconds(90));
        assertThat(map.toLeft(seconds(90)).time()).isEqualTo(seconds(100));
    }

    @Test
    void aPhaseTakenUpAgainIsMatchedInOrder() {
        TimeMap repeated = TimeMap.aligned(
                List.of(episode("R", 0, 10), episode("V", 12, 14), episode("R", 16, 20)),
                seconds(20),
                List.of(episode("R", 0, 5), episode("V", 5, 9), episode("R", 9, 11)),
                seconds(11));

        assertThat(repeated.matched()).isEqualTo(3);
        assertThat(repeated.toRight(seconds(5)).time()).isEqualTo(seconds(2.5));
        assertThat(repeated.toRight(seconds(18)).time()).isEqualTo(seconds(10));
        // the right has no idle time: it stands still between
        assertThat(repeated.toRight(seconds(11)).time()).isEqualTo(seconds(5));
    }

    @Test
    void ofPhasesDoneInAnotherOrderThoseWithMoreTimeInCommonAreMatched() {
        TimeMap swapped = TimeMap.aligned(
                List.of(episode("A", 0, 4), episode("B", 5, 25)),
                seconds(30),
                List.of(episode("B", 0, 15), episode("A", 20, 26)),
                seconds(30));

        assertThat(swapped.pieces())
                .filteredOn(p -> p.kind() == Kind.PHASE)
                .extracting(Piece::label)
                .containsExactly("B");
        assertThat(swapped.pieces())
                .filteredOn(p -> p.label() != null)
                .extracting(Piece::kind)
                .containsExactly(Kind.LEFT_ONLY, Kind.PHASE, Kind.RIGHT_ONLY);
    }

    @Test
    void theSameClockRunsAsLongAsTheShorterOfBoth() {
        TimeMap clock = TimeMap.sameClock(seconds(10), seconds(7));

        assertThat(clock.toRight(seconds(3)).time()).isEqualTo(seconds(3));
        assertThat(clock.toRight(seconds(9)).time()).isEqualTo(seconds(7));
        assertThat(clock.toRight(seconds(9)).piece().kind()).isEqualTo(Kind.LEFT_ONLY);
        assertThat(clock.toLeft(seconds(7)).time()).isEqualTo(seconds(10));
        assertThat(clock.matched()).isZero();
    }

    @Test
    void stepsNamedByTheirPhaseBecomeOneEpisodeAndRepeatsStayApart() {
        Tagging tagging = new Tagging(
                TaggingStyle.START_AND_END,
                List.of(
                        new PhaseSpan("side_port", seconds(1), seconds(2), null),
                        new PhaseSpan("main_incision", seconds(3), seconds(5), null),
                        new PhaseSpan("idle", seconds(5), seconds(6), null),
                        new PhaseSpan("rhexis", seconds(6), seconds(7), null),
                        new PhaseSpan("rhexis", seconds(8), null, null)),
                List.of());

        List<Episode> episodes =
                Episodes.of(tagging, seconds(12), id -> id.equals("rhexis") ? id : "incision", id -> id.equals("idle"));
        assertThat(episodes)
                .containsExactly(episode("incision", 1, 5), episode("rhexis", 6, 7), episode("rhexis", 8, 12));
        assertThat(Episodes.of(tagging, null, id -> id, id -> false)).hasSize(4);
    }

    @Test
    void overlappingEpisodesAreRefused() {
        List<Episode> overlapping = List.of(episode("A", 0, 5), episode("B", 4, 6));
        assertThatThrownBy(() -> TimeMap.aligned(overlapping, seconds(9), List.of(), seconds(9)))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
