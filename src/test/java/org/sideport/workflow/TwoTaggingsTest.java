package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.workflow.TwoTaggings.Agreement;
import org.sideport.workflow.TwoTaggings.Difference;

/**
 * Worked by hand over 24 s, in seconds.
 *
 * <pre>
 * one    rhexis 0 to 10    hydrodissection 10 to 20
 * other  rhexis 1 to 12    hydrodissection 12 to 21    sculpting 21 to 24
 * </pre>
 */
class TwoTaggingsTest {

    private static final Procedure PHACO = ShippedRubrics.phacoProcedure();

    private static Tagging tagging(PhaseSpan... spans) {
        return new Tagging(TaggingStyle.START_AND_END, Arrays.asList(spans), List.of());
    }

    private static PhaseSpan span(String id, int from, int to) {
        return new PhaseSpan(id, MediaTime.ofSeconds(from), MediaTime.ofSeconds(to), null);
    }

    private static final Tagging ONE = tagging(span("rhexis", 0, 10), span("hydrodissection", 10, 20));
    private static final Tagging OTHER =
            tagging(span("rhexis", 1, 12), span("hydrodissection", 12, 21), span("sculpting", 21, 24));

    private static Agreement agreement(Tagging one, Tagging other) {
        return TwoTaggings.agreement(PHACO, one, other, null).orElseThrow();
    }

    @Test
    void theShareKappaAndDistanceAreThoseOfThePaper() {
        Agreement found = agreement(ONE, OTHER);

        // the same on 1 to 10 and 12 to 20
        assertThat(found.share()).isEqualTo(17.0 / 24, within(1e-12));
        // Cohen 1960: chance (10 * 11 + 10 * 9 + 4 * 1) / 24², so (408 - 204) / (576 - 204)
        assertThat(Objects.requireNonNull(found.kappa())).isEqualTo(204.0 / 372, within(1e-12));
        // 1, 2 and 1 s
        assertThat(found.boundaryUs()).isEqualTo(1_000_000L);
    }

    @Test
    void everyStretchThatIsCalledOtherwiseIsTold() {
        assertThat(agreement(ONE, OTHER).differences())
                .containsExactly(
                        new Difference(0, 1_000_000, "rhexis", null),
                        new Difference(10_000_000, 12_000_000, "hydrodissection", "rhexis"),
                        new Difference(20_000_000, 21_000_000, null, "hydrodissection"),
                        new Difference(21_000_000, 24_000_000, null, "sculpting"));
        assertThat(agreement(ONE, ONE).differences()).isEmpty();
        assertThat(agreement(ONE, ONE).share()).isEqualTo(1);
    }

    @Test
    void whereOneHasOnlyThePhaseItsStepsCountAsThePhase() {
        Agreement found = agreement(tagging(span("capsulotomy", 0, 10)), tagging(span("rhexis", 0, 10)));

        assertThat(found.share()).isEqualTo(1);
        assertThat(found.differences()).isEmpty();
    }

    @Test
    void nothingTaggedIsNothingToCompare() {
        assertThat(TwoTaggings.agreement(PHACO, ONE, Tagging.EMPTY, null)).isEmpty();
    }
}
