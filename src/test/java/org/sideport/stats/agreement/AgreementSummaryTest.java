package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;

/** Shares by counting. */
class AgreementSummaryTest {

    private static final double NA = Double.NaN;

    @Test
    void sharesAreCountedForEachTwoRaters() {
        AgreementSummary summary = AgreementSummary.of(
                        RatingMatrix.of(new double[][] {{2, 2, NA}, {3, 4, 3}, {5, 3, 4}, {4, 4, 4}, {5, NA, 3}}))
                .orElseThrow();
        // 1-2: equal 2 of 4, within one 3 of 4, differences 0 -1 2 0; 1-3: 3-3, 5-4, 4-4, 5-3; 2-3: 4-3, 3-4, 4-4
        assertThat(summary.pairs())
                .containsExactly(
                        new PairAgreement("1", "2", 4, 0.5, 0.75, 0.25),
                        new PairAgreement("1", "3", 4, 0.5, 0.75, 0.75),
                        new PairAgreement("2", "3", 3, 1.0 / 3, 1.0, 0.0));
        assertThat(summary.comparisons()).isEqualTo(11);
        assertThat(summary.exact()).isCloseTo(5.0 / 11, within(1e-15));
        assertThat(summary.withinOneLevel()).isCloseTo(9.0 / 11, within(1e-15));
        assertThat(summary.step()).isEqualTo(1);
        // 4 is given five times among thirteen scores
        assertThat(summary.commonestScore()).isEqualTo(4);
        assertThat(summary.commonestShare()).isCloseTo(5.0 / 13, within(1e-15));
        assertThat(summary.scoresUsed()).isEqualTo(4);
    }

    @Test
    void theStepOfTheScaleMayBeGivenOrIsTheSmallestGap() {
        RatingMatrix table = RatingMatrix.of(new double[][] {{1, 3}, {3, 6}, {6, 6}});
        assertThat(AgreementSummary.of(table).orElseThrow().step()).isEqualTo(2);
        assertThat(AgreementSummary.of(table).orElseThrow().withinOneLevel()).isCloseTo(2.0 / 3, within(1e-15));
        assertThat(AgreementSummary.of(table, 1).orElseThrow().withinOneLevel()).isCloseTo(1.0 / 3, within(1e-15));
        assertThat(AgreementSummary.of(table, 3).orElseThrow().withinOneLevel()).isEqualTo(1);
        assertThatThrownBy(() -> AgreementSummary.of(table, 0)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void levelsOfATenthAreNeighboursInSpiteOfRounding() {
        AgreementSummary summary = AgreementSummary.of(RatingMatrix.of(new double[][] {{0.1, 0.2}, {0.2, 0.3}}))
                .orElseThrow();
        assertThat(summary.withinOneLevel()).isEqualTo(1);
    }

    @Test
    void aMeasurementHasNoLevels() {
        double[][] scores = new double[13][2];
        for (int i = 0; i < 13; i++) {
            scores[i] = new double[] {i, i};
        }
        assertThat(AgreementSummary.of(RatingMatrix.of(scores)).orElseThrow().withinOneLevel())
                .isNull();
        assertThat(AgreementSummary.of(RatingMatrix.of(Arrays.copyOf(scores, 12)))
                        .orElseThrow()
                        .withinOneLevel())
                .isEqualTo(1);
        // one level only: no distance to measure with
        assertThat(AgreementSummary.of(RatingMatrix.of(new double[][] {{5, 5}}))
                        .orElseThrow()
                        .step())
                .isNull();
    }

    @Test
    void ratersWithoutASharedSubjectCannotBeCompared() {
        assertThat(AgreementSummary.of(RatingMatrix.of(new double[][] {{1, NA}, {NA, 2}})))
                .isInstanceOf(Outcome.Refused.class);
    }

    /** The ceiling described in Annadanam et al. 2024, Clin Ophthalmol 18:943: every mark is 4 or 5 from both raters. */
    @Test
    void atTheCeilingTheReaderIsWarnedOfTheCoefficient() {
        double[][] scores = new double[20][];
        for (int i = 0; i < 20; i++) {
            scores[i] = new double[] {i == 3 ? 4 : 5, i == 7 ? 4 : 5};
        }
        AgreementSummary summary = AgreementSummary.of(RatingMatrix.of(scores)).orElseThrow();
        double kappa = -1.0 / 19; // observed .90, expected .905
        Optional<String> warning = summary.rangeWarning(kappa);
        assertThat(warning).isPresent();
        assertThat(warning.get())
                .contains("-0.05")
                .contains("same score in 90 % of comparisons and were within one level in 100 %")
                .contains("95 % of all scores are 5");
        assertThat(summary.rangeWarning(0.5)).isEmpty();
        assertThat(summary.rangeWarning(0.49)).isPresent();
    }

    @Test
    void withoutAgreementOrCrowdingThereIsNoWarning() {
        // equal in half of the comparisons only
        assertThat(AgreementSummary.of(RatingMatrix.of(new double[][] {{4, 5}, {5, 5}}))
                        .orElseThrow()
                        .rangeWarning(0))
                .isEmpty();
        // three levels equally used
        assertThat(AgreementSummary.of(RatingMatrix.of(new double[][] {{3, 3}, {4, 4}, {5, 5}}))
                        .orElseThrow()
                        .rangeWarning(0))
                .isEmpty();
        // exactly 60 % equal, exactly 60 % of one score
        assertThat(AgreementSummary.of(RatingMatrix.of(new double[][] {{5, 5}, {5, 5}, {4.5, 4.5}, {5, 4}, {5, 3}}))
                        .orElseThrow()
                        .rangeWarning(0))
                .hasValueSatisfying(text -> assertThat(text).contains("60 % of all scores are 5"));
        // a single level, no step known
        assertThat(AgreementSummary.of(RatingMatrix.of(new double[][] {{4.5, 4.5}, {4.5, 4.5}}))
                        .orElseThrow()
                        .rangeWarning(0))
                .hasValueSatisfying(
                        text -> assertThat(text).doesNotContain("one level").contains("100 % of all scores are 4.5"));
    }
}
