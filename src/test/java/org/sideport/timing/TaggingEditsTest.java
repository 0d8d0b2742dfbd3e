package org.sideport.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

class TaggingEditsTest {

    @Test
    void aKeyStartsAPhaseAndEndsTheRunningOneOnTheSameFrame() {
        Tagging one = TaggingEdits.startPhase(Tagging.EMPTY, "incision", at(2), Operator.TRAINEE);
        Tagging two = TaggingEdits.startPhase(one, "rhexis", at(5), Operator.TRAINER);
        assertThat(two.spans())
                .containsExactly(
                        new PhaseSpan("incision", at(2), at(5), Operator.TRAINEE),
                        new PhaseSpan("rhexis", at(5), null, Operator.TRAINER));
    }

    @Test
    void anotherKeyEndsItIntoIdle() {
        Tagging ended = TaggingEdits.endPhase(TaggingEdits.startPhase(Tagging.EMPTY, "rhexis", at(5), null), at(9));
        assertThat(ended.spans()).containsExactly(span("rhexis", 5, 9));
        assertThat(ended.spanAt(at(9))).isNull();
        assertThatThrownBy(() -> TaggingEdits.endPhase(ended, at(9))).isInstanceOf(InputException.class);
    }

    @Test
    void startingInTheMiddleOfAPhaseCutsItThereAndTakesOverItsEnd() {
        Tagging cut =
                TaggingEdits.startPhase(tagging(span("rhexis", 5, 20), span("phaco", 20, 30)), "ovd", at(10), null);
        assertThat(cut.spans()).containsExactly(span("rhexis", 5, 10), span("ovd", 10, 20), span("phaco", 20, 30));
    }

    @Test
    void startingOnTheFirstFrameOfAPhaseCallsItSomethingElse() {
        Tagging renamed = TaggingEdits.startPhase(tagging(span("rhexis", 5, 20)), "ovd", at(5), null);
        assertThat(renamed.spans()).containsExactly(span("ovd", 5, 20));
    }

    @Test
    void startingInIdleTimeRunsToTheNextPhase() {
        Tagging filled = TaggingEdits.startPhase(tagging(span("phaco", 20, 30)), "rhexis", at(5), null);
        assertThat(filled.spans()).containsExactly(span("rhexis", 5, 20), span("phaco", 20, 30));
    }

    @Test
    void neighboursShareTheirBoundaryWhenItMoves() {
        Tagging moved =
                TaggingEdits.moveBoundary(tagging(span("rhexis", 5, 20), span("phaco", 20, 30)), at(20), at(18));
        assertThat(moved.spans()).containsExactly(span("rhexis", 5, 18), span("phaco", 18, 30));
    }

    @Test
    void aBoundaryCannotPassAnother() {
        Tagging tagging = tagging(span("rhexis", 5, 20), span("phaco", 22, 30));
        assertThatThrownBy(() -> TaggingEdits.moveBoundary(tagging, at(20), at(5)))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> TaggingEdits.moveBoundary(tagging, at(20), at(23)))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> TaggingEdits.moveBoundary(tagging, at(21), at(23)))
                .isInstanceOf(InputException.class);
    }

    private static Tagging tagging(PhaseSpan... spans) {
        return new Tagging(TaggingStyle.START_AND_END, List.of(spans), List.of());
    }

    private static PhaseSpan span(String phase, long start, @Nullable Integer end) {
        return new PhaseSpan(phase, at(start), end == null ? null : at(end), null);
    }

    private static MediaTime at(long seconds) {
        return MediaTime.ofMicros(seconds * 1_000_000);
    }
}
