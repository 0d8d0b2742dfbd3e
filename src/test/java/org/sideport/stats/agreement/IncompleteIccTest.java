package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.resample.Bootstrap;

/** Against lme4 1.1.31, src/test/oracle/agreement/incomplete.R. */
class IncompleteIccTest {

    private static final double NA = Double.NaN;
    private static final Bootstrap BOOTSTRAP = new Bootstrap(300, 5, 0.95);

    private static double[][] shroutFleissWithGaps() {
        double[][] scores = OpenData.shroutFleiss();
        scores[1][2] = NA;
        scores[4][0] = NA;
        scores[4][1] = NA;
        return scores;
    }

    private static double[][] attitudeWithGaps() {
        double[][] scores = OpenData.attitude();
        for (int i = 0; i < scores.length; i++) {
            for (int j = 0; j < 7; j++) {
                if ((7 * i + j + 1) % 8 == 0) {
                    scores[i][j] = NA;
                }
            }
        }
        return scores;
    }

    private static void check(IccTable found, double... expected) {
        for (IccForm form : IccForm.values()) {
            assertThat(found.get(form).estimate().value()).isCloseTo(expected[form.ordinal()], within(2e-6));
        }
    }

    @Test
    void gapsInASmallTable() {
        IccTable found = IncompleteIcc.of(RatingMatrix.of(shroutFleissWithGaps()), BOOTSTRAP)
                .orElseThrow();
        check(found, .02203144, .27317039, .68047085, .06866476, .55157276, .87452344);
        assertThat(found.components().subject()).isCloseTo(2.46578829, within(2e-5));
        assertThat(found.components().rater()).isCloseTo(5.40290759, within(2e-5));
        assertThat(found.components().residual()).isCloseTo(1.15786184, within(2e-5));
        // one of three and one of two raters of four: 6 / (4/4 + 1/3 + 1/2)
        assertThat(found.components().ratersPerSubject()).isCloseTo(6 / (1 + 1 / 3.0 + 1 / 2.0), within(1e-12));
        assertThat(found.subjects()).isEqualTo(6);
        assertThat(found.raters()).isEqualTo(4);
        assertThat(found.scores()).isEqualTo(21);
        assertThat(found.meanSquares()).isNull();
        assertThat(found.warnings().get(0))
                .startsWith("3 of 24 scores are missing")
                .contains("k is 3.27");
        assertThat(found.warnings().get(1)).startsWith("There are only 6 subjects");
        assertThat(found.get(IccForm.ICC_2_1).test()).isNull();
    }

    @Test
    void gapsInALargerTable() {
        IccTable found =
                IncompleteIcc.of(RatingMatrix.of(attitudeWithGaps()), BOOTSTRAP).orElseThrow();
        check(found, .17144067, .24763124, .44310509, .55861417, .66812236, .82954715);
        for (IccEstimate each : found.estimates()) {
            assertThat(each.estimate().limits().contains(each.estimate().value()))
                    .isTrue();
            assertThat(each.estimate().method())
                    .contains(each.form().shroutFleiss())
                    .contains("REML");
        }
    }

    /** Without gaps the drawn limits must resemble the exact ones of R psych: ICC(3,1) .288 to .608, ICC(1,1) .077 to .357. */
    @Test
    void limitsResembleTheExactOnes() {
        IccTable found = IncompleteIcc.of(RatingMatrix.of(OpenData.attitude()), new Bootstrap(1000, 3, 0.95))
                .orElseThrow();
        near(found, IccForm.ICC_3_1, .28839663, .60834094);
        near(found, IccForm.ICC_1_1, .07695085, .35703010);
        near(found, IccForm.ICC_3_K, .73937569, .91577307);
    }

    private static void near(IccTable found, IccForm form, double lower, double upper) {
        Interval limits = found.get(form).estimate().limits();
        assertThat(limits.lower()).isCloseTo(lower, within(.05));
        assertThat(limits.upper()).isCloseTo(upper, within(.05));
    }

    @Test
    void ratersOfTheirOwnSubjectsLeaveTheOneWayForms() {
        double[][] scores = {{1, 2, NA, NA, NA, NA}, {NA, NA, 5, 4, NA, NA}, {NA, NA, NA, NA, 8, 9}};
        IccTable found = IncompleteIcc.of(RatingMatrix.of(scores), BOOTSTRAP).orElseThrow();
        assertThat(found.estimates()).extracting(IccEstimate::form).containsExactly(IccForm.ICC_1_1, IccForm.ICC_1_K);
        // balanced one-way by hand: means 1.5 4.5 8.5, BMS 2·37/3, WMS 1/2; (BMS − WMS)/(BMS + WMS)
        double bms = 2 * 37.0 / 3;
        assertThat(found.get(IccForm.ICC_1_1).estimate().value()).isCloseTo((bms - .5) / (bms + .5), within(1e-7));
        assertThat(found.components()).isNull();
        assertThat(found.warnings()).anyMatch(w -> w.contains("the raters share no subjects"));
        assertThat(found.find(IccForm.ICC_2_1)).isEmpty();
    }

    private static Refusal refusal(double[][] scores) {
        return ((Outcome.Refused<?>) IncompleteIcc.of(RatingMatrix.of(scores), BOOTSTRAP)).refusal();
    }

    @Test
    void whatCannotBeComputedIsRefused() {
        assertThat(refusal(new double[][] {{1, NA}, {NA, 2}, {3, NA}}).why())
                .isEqualTo("there are 2 raters and 0 subjects with two scores");
        assertThat(refusal(new double[][] {{1, NA}, {2, NA}}).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(refusal(new double[][] {{2, 2}, {2, 2}, {2, NA}}).reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
    }

    /** Known truth: subject 4, rater 1, residual 3: ICC(2,1) is a half, ICC(3,1) 4/7. */
    @Test
    void aKnownTruthIsFound() {
        SplittableRandom random = new SplittableRandom(21);
        double[][] scores = new double[400][20];
        double[] severity = random.doubles(20).map(u -> random.nextGaussian()).toArray();
        for (double[] row : scores) {
            double subject = 2 * random.nextGaussian();
            for (int j = 0; j < 20; j++) {
                row[j] = random.nextDouble() < .8 ? NA : subject + severity[j] + Math.sqrt(3) * random.nextGaussian();
            }
        }
        IccTable found = IncompleteIcc.of(RatingMatrix.of(scores), new Bootstrap(100, 1, 0.99))
                .orElseThrow();
        assertThat(found.get(IccForm.ICC_3_1).estimate().limits().contains(4.0 / 7))
                .isTrue();
        assertThat(found.get(IccForm.ICC_2_1).estimate().limits().contains(.5)).isTrue();
        assertThat(found.get(IccForm.ICC_3_1).estimate().value()).isCloseTo(4.0 / 7, within(.08));
    }

    /** Small tables of a known truth (subject 4, rater 1, residual 3), a quarter missing: 95 % limits hold it near as often. */
    @Test
    void limitsHoldAKnownTruthAboutAsOftenAsTheySay() {
        SplittableRandom random = new SplittableRandom(77);
        int held = 0;
        int tables = 80;
        for (int t = 0; t < tables; t++) {
            double[] severity =
                    random.doubles(4).map(u -> random.nextGaussian()).toArray();
            double[][] scores = new double[20][4];
            for (double[] row : scores) {
                double subject = 2 * random.nextGaussian();
                for (int j = 0; j < 4; j++) {
                    double score = subject + severity[j] + Math.sqrt(3) * random.nextGaussian();
                    row[j] = random.nextDouble() < .25 ? NA : score;
                }
            }
            IccTable found = IncompleteIcc.of(RatingMatrix.of(scores), new Bootstrap(150, t, .95))
                    .orElseThrow();
            held += found.get(IccForm.ICC_2_1).estimate().limits().contains(.5) ? 1 : 0;
        }
        // if they hold it in 92 %, 65 or fewer of 80 has a chance below 0.5 %
        assertThat(held).isBetween(66, 80);
    }
}
