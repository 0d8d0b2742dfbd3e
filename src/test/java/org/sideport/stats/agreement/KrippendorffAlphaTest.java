package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.resample.Bootstrap;

/** Against Krippendorff 2011, Computing Krippendorff's Alpha-Reliability. */
class KrippendorffAlphaTest {

    private static final Bootstrap BOOTSTRAP = new Bootstrap(500, 7, 0.95);

    private static Outcome<Estimate> alpha(double[][] scores, MeasurementLevel level) {
        RatingMatrix matrix = RatingMatrix.of(scores);
        double[] values = matrix.values();
        return KrippendorffAlpha.of(values, matrix.counts(values), level, BOOTSTRAP);
    }

    /** Sections C to E: .743, .815, .849, .797; further digits recomputed. */
    @ParameterizedTest
    @CsvSource({"NOMINAL, .743421", "ORDINAL, .815388", "INTERVAL, .849107", "RATIO, .797403"})
    void theExampleWithGapsGivesThePublishedAlphas(MeasurementLevel level, double published) {
        Estimate alpha = alpha(OpenData.krippendorff(), level).orElseThrow();
        assertThat(alpha.value()).isCloseTo(published, within(5e-7));
        // one unit has a single score and does not count
        assertThat(alpha.n()).isEqualTo(11);
        assertThat(alpha.limits().contains(published)).isTrue();
        assertThat(alpha.limits().level()).isEqualTo(.95);
        assertThat(alpha.method()).contains(level.name().toLowerCase(Locale.ROOT));
        assertThat(alpha.warnings()).anyMatch(warning -> warning.contains("only 11 subjects"));
    }

    /** Section A: two observers, ten units, binary; alpha .095 (the data from memory). */
    @Test
    void theBinaryExampleGivesThePublishedAlpha() {
        double[][] scores = {{0, 0}, {1, 1}, {0, 1}, {0, 0}, {0, 0}, {0, 1}, {0, 1}, {0, 0}, {1, 0}, {0, 0}};
        assertThat(alpha(scores, MeasurementLevel.NOMINAL).orElseThrow().value())
                .isCloseTo(.095, within(5e-4));
    }

    /** Section B: two observers, twelve units, five categories; alpha .692 (the data from memory). */
    @Test
    void theNominalExampleGivesThePublishedAlpha() {
        String first = "aabbdcccedda";
        String second = "babbbccceddd";
        double[][] scores = new double[12][2];
        for (int i = 0; i < 12; i++) {
            scores[i] = new double[] {first.charAt(i), second.charAt(i)};
        }
        assertThat(alpha(scores, MeasurementLevel.NOMINAL).orElseThrow().value())
                .isCloseTo(.692, within(5e-4));
    }

    @Test
    void nominalAlphaIsFleissKappaCorrectedForTheNumberOfScores() {
        // irrCAC, distrib.6raters: kappa .4139265, alpha .4204384: 1 − alpha = (1 − kappa) (nm − 1) ⁄ nm with nm 90
        int[][] counts = Arrays.copyOf(OpenData.counts(OpenData.fleiss(), 5), 15);
        Estimate alpha = KrippendorffAlpha.of(new double[] {1, 2, 3, 4, 5}, counts, MeasurementLevel.NOMINAL, BOOTSTRAP)
                .orElseThrow();
        assertThat(alpha.value()).isCloseTo(.4204384, within(5e-8));
    }

    private static Refusal refusal(Outcome<?> outcome) {
        return ((Outcome.Refused<?>) outcome).refusal();
    }

    @Test
    void whatCannotBeComputedIsRefused() {
        double na = Double.NaN;
        assertThat(refusal(alpha(new double[][] {{1, na}, {na, 2}}, MeasurementLevel.NOMINAL))
                        .why())
                .isEqualTo("no subject has two scores");
        assertThat(refusal(alpha(new double[][] {{1, 2}, {na, 2}}, MeasurementLevel.NOMINAL))
                        .why())
                .isEqualTo("only 1 subject has two scores");
        assertThat(refusal(alpha(new double[][] {{2, 2}, {2, 2}, {3, na}}, MeasurementLevel.NOMINAL))
                        .reason())
                .isEqualTo(Refusal.Reason.NO_VARIATION);
        double[][] negative = {{-1, 2}, {1, 1}};
        assertThat(refusal(alpha(negative, MeasurementLevel.RATIO)).why()).contains("negative value");
        // two subjects are too few for limits but not for the coefficient: observed 9, expected by hand
        Estimate alpha = alpha(negative, MeasurementLevel.INTERVAL).orElseThrow();
        // coincidences −1,2 twice; 1,1 twice: Dₒ = 18/4; totals −1:1, 1:2, 2:1: Dₑ = 2(2·4 + 9 + 2·1)/(4·3)
        assertThat(alpha.value()).isCloseTo(1 - (18.0 / 4) / (38.0 / 12), within(1e-12));
        assertThat(alpha.limits()).isNull();
    }

    /** Zero and zero of a ratio scale are the same, zero and anything else as far apart as can be. */
    @Test
    void aRatioScaleMayHoldZero() {
        Estimate alpha = alpha(new double[][] {{0, 0}, {0, 2}, {4, 4}, {2, 2}}, MeasurementLevel.RATIO)
                .orElseThrow();
        // totals 0:3, 2:3, 4:2; n 8; δ²(0,·) 1, δ²(2,4) 1/9: Dₒ = 2/8, Dₑ = 2 (9 + 6 + 6/9)/56
        assertThat(alpha.value()).isCloseTo(1 - .25 / (2 * (15 + 2.0 / 3) / 56), within(1e-12));
    }
}
