package org.sideport.stats.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.learning.CasesToReference.Reach;
import org.sideport.stats.regression.RobustLoss;
import org.sideport.stats.resample.Bootstrap;

/**
 * Curves against R (src/test/oracle/learning/learning.R). The weight-loss data of Venables & Ripley 2002, Modern Applied
 * Statistics with S, section 8.2, follow an exponential with a plateau; day d counts as case d + 1 here.
 */
class LearningTest {

    private static final double[] DAYS = {
        0, 4, 7, 7, 11, 18, 24, 30, 32, 43, 46, 60, 64, 70, 71, 71, 73, 74, 84, 88, 95, 102, 106, 109, 115, 122, 133,
        137, 140, 143, 147, 148, 149, 150, 153, 156, 161, 164, 165, 165, 170, 176, 179, 198, 214, 218, 221, 225, 233,
        238, 241, 246
    };

    private static final double[] WEIGHT = {
        184.35, 182.51, 180.45, 179.91, 177.91, 175.81, 173.11, 170.06, 169.31, 165.1, 163.11, 158.3, 155.8, 154.31,
        153.86, 154.2, 152.2, 152.8, 150.3, 147.8, 146.1, 145.6, 142.5, 142.3, 139.4, 137.9, 133.7, 133.7, 133.3, 131.2,
        133, 132.2, 130.8, 131.3, 129, 127.9, 126.9, 127.7, 129.5, 128.4, 125.4, 124.9, 124.9, 118.2, 118.2, 115.3,
        115.7, 116, 115.5, 112.6, 114, 112.6
    };

    static CaseSeries loss(CaseSeries.Scale scale) {
        return CaseSeries.of(Arrays.stream(DAYS).map(d -> d + 1).toArray(), WEIGHT, scale)
                .orElseThrow();
    }

    static CaseSeries series(CaseSeries.Scale scale, double... values) {
        double[] numbers = new double[values.length];
        Arrays.setAll(numbers, i -> i + 1);
        return CaseSeries.of(numbers, values, scale).orElseThrow();
    }

    private static LearningFit fit(LearningModel model, CaseSeries.Scale scale) {
        return LearningFit.of(loss(scale), model, 0.95).orElseThrow();
    }

    private static void parameter(LearningFit fit, int j, double value, double se) {
        assertThat(fit.fit().coefficients().get(j).value()).isCloseTo(value, within(2e-6 * Math.abs(value)));
        assertThat(fit.fit().coefficients().get(j).se()).isCloseTo(se, within(2e-5 * se));
    }

    @Test
    void plainCurvesComeOutAsFromNls() {
        LearningFit exponential = fit(LearningModel.EXPONENTIAL, CaseSeries.Scale.PLAIN);
        parameter(exponential, 0, 184.0579320959, 0.370507585398);
        parameter(exponential, 1, 81.3738167949, 2.269006350527);
        parameter(exponential, 2, 141.9103645118, 5.294516851906);
        assertThat(exponential.aicc()).isCloseTo(141.786448985, within(1e-7));
        // Venables & Ripley 2002, section 8.2: plateau 81.374 (2.269), half-time 141.911 (5.295), SE 0.8949 on 49 df
        assertThat(exponential.fit().residualSd()).isCloseTo(0.8949, within(5e-5));
        assertThat(exponential.fit().df()).isEqualTo(49);
        LearningFit power = fit(LearningModel.POWER, CaseSeries.Scale.PLAIN);
        parameter(power, 0, 219.501153353254, 6.84879587941645);
        parameter(power, 1, 0.933512011298, 0.00464562678198);
        assertThat(power.aicc()).isCloseTo(393.640290127, within(1e-7));
        LearningFit logLinear = fit(LearningModel.LOG_LINEAR, CaseSeries.Scale.PLAIN);
        parameter(logLinear, 0, 217.9983102250, 4.899680264148);
        parameter(logLinear, 1, -11.8516526321, 0.743314176618);
        assertThat(logLinear.aicc()).isCloseTo(376.298956968, within(1e-7));
        LearningFit constant = fit(LearningModel.CONSTANT, CaseSeries.Scale.PLAIN);
        parameter(constant, 0, 142.248076923, 2.9264060612);
        assertThat(constant.aicc()).isCloseTo(467.942045924, within(1e-7));
    }

    @Test
    void curvesOfLogarithmsComeOutAsFromNls() {
        LearningFit exponential = fit(LearningModel.EXPONENTIAL, CaseSeries.Scale.LOG);
        parameter(exponential, 0, 184.0943482230, 0.493371055582);
        parameter(exponential, 1, 81.6279655427, 2.335594545152);
        parameter(exponential, 2, 141.2699659910, 5.702235820647);
        assertThat(exponential.aicc()).isCloseTo(-363.876206365, within(1e-7));
        LearningFit power = fit(LearningModel.POWER, CaseSeries.Scale.LOG);
        parameter(power, 0, 234.436119267723, 8.85892418890343);
        parameter(power, 1, 0.923287496119, 0.00529295364233);
        LearningFit logLinear = fit(LearningModel.LOG_LINEAR, CaseSeries.Scale.LOG);
        parameter(logLinear, 0, 229.4270938405, 5.685238686105);
        parameter(logLinear, 1, -13.6444027606, 0.827824408729);
        LearningFit constant = fit(LearningModel.CONSTANT, CaseSeries.Scale.LOG);
        parameter(constant, 0, 140.758460684, 2.84416461498);
        assertThat(constant.aicc()).isCloseTo(-49.5152703127, within(1e-8));
        // nls stops within 1e-7 of the residual SD
        assertThat(constant.valueAt(17)).isCloseTo(140.758460684, within(1e-7));
    }

    @Test
    void profileLimitsAreThoseOfR() {
        List<Estimate> estimates =
                fit(LearningModel.EXPONENTIAL, CaseSeries.Scale.PLAIN).estimates(0.95);
        assertThat(estimates).hasSize(3);
        assertThat(estimates.get(2).limits().lower()).isCloseTo(131.98860103, within(1e-5));
        assertThat(estimates.get(2).limits().upper()).isCloseTo(153.340779594, within(1e-5));
        // interpolated by R: first 183.3156 184.8037, plateau 76.482 85.632
        assertThat(estimates.get(0).limits().lower()).isCloseTo(183.3156503, within(2e-3));
        assertThat(estimates.get(0).limits().upper()).isCloseTo(184.8036762, within(2e-3));
        assertThat(estimates.get(1).limits().lower()).isCloseTo(76.4821573, within(5e-3));
        assertThat(estimates.get(1).limits().upper()).isCloseTo(85.6320713, within(5e-3));
        assertThat(estimates.get(1).n()).isEqualTo(52);
        assertThat(estimates.get(1).method()).contains("profile-likelihood");
        assertThat(estimates.get(1).warnings()).isEmpty();
    }

    /**
     * One long case and then all alike: the distance to the plateau may have halved as fast as it likes, so the lower limit
     * is the edge, 0. At the upper limit h the least sum of squares exceeds its minimum by t² s².
     */
    @Test
    void aStepAfterTheFirstCaseHasAHalfTimeDownToNothing() {
        double[] values = {10, 4.1, 3.9, 4.05, 3.95, 4.1, 3.9, 4.05, 3.95, 4.1, 3.9, 4.0};
        LearningFit fit = LearningFit.of(series(CaseSeries.Scale.PLAIN, values), LearningModel.EXPONENTIAL, 0.95)
                .orElseThrow();
        Estimate half = fit.estimates(0.95).get(2);
        assertThat(half.limits().lower()).isBetween(0.0, 0.02);
        double upper = half.limits().upper();
        assertThat(upper).isBetween(0.1, 0.5);
        double[] left = new double[12];
        Arrays.setAll(left, i -> Math.pow(2, -i / upper));
        double squares = org.sideport.stats.regression.LinearLeastSquares.fit(
                        org.sideport.stats.regression.DesignMatrix.of(List.of("left"), new double[][] {left}, true),
                        values,
                        0.95)
                .orElseThrow()
                .sumOfSquares();
        // t(9, 0.975) = 2.262157
        assertThat((squares - fit.fit().sumOfSquares()) / Math.pow(fit.fit().residualSd() * 2.262157163, 2))
                .isCloseTo(1, within(1e-4));
    }

    @Test
    void theExponentialIsToldFromTheOthers() {
        ModelComparison comparison = ModelComparison.of(
                        loss(CaseSeries.Scale.PLAIN), List.of(LearningModel.values()), 0.95)
                .orElseThrow();
        assertThat(comparison.candidates().stream().map(c -> c.fit().model()))
                .containsExactly(
                        LearningModel.EXPONENTIAL,
                        LearningModel.LOG_LINEAR,
                        LearningModel.POWER,
                        LearningModel.CONSTANT);
        assertThat(comparison.candidates().get(1).delta()).isCloseTo(376.298956968 - 141.786448985, within(1e-6));
        assertThat(comparison.candidates().get(0).weight()).isCloseTo(1, within(1e-12));
        assertThat(comparison.best().model()).isEqualTo(LearningModel.EXPONENTIAL);
        assertThat(comparison.supported()).hasSize(1);
        assertThat(comparison.failed()).isEmpty();
        assertThat(comparison.sentence())
                .isEqualTo(
                        "The exponential curve describes the data best; the next, log-linear, is 234.5 worse by AICc.");
    }

    @Test
    void whatTheDataCannotTellIsSaid() {
        double[] wobble = {5.1, 4.7, 5.6, 5.0, 4.4, 5.3, 4.9, 5.8, 4.6, 5.2, 5.0, 4.5, 5.5, 4.8, 5.4, 5.1};
        ModelComparison flat = ModelComparison.of(
                        series(CaseSeries.Scale.PLAIN, wobble),
                        List.of(LearningModel.CONSTANT, LearningModel.LOG_LINEAR),
                        0.95)
                .orElseThrow();
        assertThat(flat.best().model()).isEqualTo(LearningModel.CONSTANT);
        assertThat(flat.sentence()).startsWith("No change with the case number is shown: the constant is best");
        double[] falling = {9.2, 8.1, 8.4, 7.1, 7.3, 6.9, 7.2, 6.3, 6.6, 6.1, 6.4, 5.9};
        ModelComparison close = ModelComparison.of(
                        series(CaseSeries.Scale.LOG, falling),
                        List.of(LearningModel.POWER, LearningModel.LOG_LINEAR),
                        0.95)
                .orElseThrow();
        assertThat(close.supported()).hasSize(2);
        assertThat(close.sentence())
                .startsWith("The data cannot tell the ")
                .contains("below 2")
                .endsWith(").");
        ModelComparison alone = ModelComparison.of(
                        series(CaseSeries.Scale.LOG, falling), List.of(LearningModel.POWER), 0.95)
                .orElseThrow();
        assertThat(alone.sentence()).isEqualTo("Only the power curve was fitted, so nothing is said of others.");
        double[] hardly = {5.6, 4.7, 5.5, 5.0, 4.4, 5.3, 4.9, 5.4, 4.6, 5.0, 4.9, 4.5, 5.2, 4.6, 5.0, 4.9};
        ModelComparison faint = ModelComparison.of(
                        series(CaseSeries.Scale.PLAIN, hardly),
                        List.of(LearningModel.CONSTANT, LearningModel.LOG_LINEAR),
                        0.95)
                .orElseThrow();
        assertThat(faint.supported()).hasSize(2);
        assertThat(faint.sentence()).endsWith("so not even a change with the case number is shown.");
    }

    /** R: case 350.498 at 100 (beyond the last, 247), 83.504 at 150; standard error by the delta method 8.175. */
    @Test
    void casesToAReferenceAreThoseOfTheCurve() {
        LearningFit fit = fit(LearningModel.EXPONENTIAL, CaseSeries.Scale.PLAIN);
        Bootstrap bootstrap = new Bootstrap(500, 7, 0.95);
        CasesToReference beyond = CasesToReference.of(fit, 100, true, bootstrap);
        assertThat(beyond.reach()).isEqualTo(Reach.BEYOND_THE_DATA);
        assertThat(beyond.cases()).isCloseTo(350.498128942, within(1e-4));
        assertThat(beyond.warnings().toString()).contains("beyond the last case");
        assertThat(beyond.last()).isEqualTo(247);
        // ± 1.96 × 8.175 roughly
        assertThat(beyond.limits().lower()).isBetween(325.0, 343.0);
        assertThat(beyond.limits().upper()).isBetween(358.0, 380.0);
        CasesToReference within = CasesToReference.of(fit, 150, true, bootstrap);
        assertThat(within.reach()).isEqualTo(Reach.WITHIN_THE_DATA);
        assertThat(within.cases()).isCloseTo(83.5041312706, within(1e-5));
        assertThat(within.limits().contains(83.5)).isTrue();
        assertThat(within.limits().upper() - within.limits().lower()).isBetween(0.8, 3.0);
        assertThat(within.warnings()).isEmpty();
        CasesToReference never = CasesToReference.of(fit, 70, true, bootstrap);
        assertThat(never.reach()).isEqualTo(Reach.NEVER);
        assertThat(never.cases()).isNull();
        assertThat(never.limits().upper()).isInfinite();
        CasesToReference already = CasesToReference.of(fit, 190, true, bootstrap);
        assertThat(already.reach()).isEqualTo(Reach.FROM_THE_FIRST);
        assertThat(already.cases()).isEqualTo(1);
        assertThat(CasesToReference.of(fit, 150, false, bootstrap).reach()).isEqualTo(Reach.FROM_THE_FIRST);
        assertThat(CasesToReference.of(fit, 200, false, bootstrap).reach()).isEqualTo(Reach.NEVER);
    }

    @Test
    void eachCurveIsTurnedRoundByItsInverse() {
        double[][] parameters = {{500, 0.9}, {500, -40}, {500, 300, 12}};
        LearningModel[] models = {LearningModel.POWER, LearningModel.LOG_LINEAR, LearningModel.EXPONENTIAL};
        for (int m = 0; m < 3; m++) {
            double reference = models[m].value(37.5, parameters[m], null);
            assertThat(CasesToReference.first(models[m], parameters[m], reference, true))
                    .isCloseTo(37.5, within(1e-9));
            assertThat(CasesToReference.first(models[m], parameters[m], 600, false))
                    .isEqualTo(1e7);
            assertThat(CasesToReference.first(models[m], parameters[m], 500, true))
                    .isEqualTo(1);
        }
        assertThat(CasesToReference.first(LearningModel.CONSTANT, new double[] {5}, 4, true))
                .isEqualTo(1e7);
        assertThat(CasesToReference.first(LearningModel.CONSTANT, new double[] {5}, 4, false))
                .isEqualTo(1);
        // 500 · 0.9^log₂ 8 = 500 · 0.729
        assertThat(LearningModel.POWER.value(8, parameters[0], null)).isCloseTo(364.5, within(1e-10));
        assertThat(LearningModel.LOG_LINEAR.value(8, parameters[1], null)).isCloseTo(380, within(1e-10));
        assertThat(LearningModel.EXPONENTIAL.value(13, parameters[2], null)).isCloseTo(400, within(1e-10));
        assertThat(LearningModel.EXPONENTIAL.value(3, new double[] {5, 3, 0}, null))
                .isNaN();
        assertThat(LearningModel.POWER.value(3, new double[] {5, -1}, null)).isNaN();
        assertThat(LearningModel.EXPONENTIAL.parameters()).containsExactly("first", "plateau", "cases_to_halve");
    }

    /** Case 6 was given a slip of the pen: 1900. R: rlm on the logarithms. */
    @Test
    void anOutlyingCaseIsNamedWithItsWeight() {
        CaseSeries series =
                series(CaseSeries.Scale.LOG, 1000, 905, 860, 800, 790, 1900, 720, 735, 700, 690, 660, 668, 645, 640);
        LearningFit least = LearningFit.of(series, LearningModel.POWER, 0.95).orElseThrow();
        OutlyingCases bisquare =
                OutlyingCases.of(least, RobustLoss.BISQUARE, 0.95).orElseThrow();
        assertThat(bisquare.fit().parameters()[0]).isCloseTo(1019.923136, within(1e-5));
        assertThat(bisquare.fit().parameters()[1]).isCloseTo(0.887238608071, within(1e-9));
        assertThat(bisquare.fit().scale()).isCloseTo(0.0206540970309, within(1e-10));
        assertThat(bisquare.fit().weights()[7]).isCloseTo(0.801544179483, within(1e-7));
        assertThat(bisquare.outlying()).hasSize(1);
        OutlyingCases.OutlyingCase six = bisquare.outlying().get(0);
        assertThat(six.caseNumber()).isEqualTo(6);
        assertThat(six.value()).isEqualTo(1900);
        assertThat(six.weight()).isZero();
        double expected = 1019.923136 * Math.pow(0.887238608071, Math.log(6) / Math.log(2));
        assertThat(six.expected()).isCloseTo(expected, within(1e-4));
        assertThat(six.distance()).isCloseTo(Math.log(1900 / expected) / 0.0206540970309, within(1e-4));
        OutlyingCases huber = OutlyingCases.of(least, RobustLoss.HUBER, 0.95).orElseThrow();
        assertThat(huber.fit().parameters()[1]).isCloseTo(0.887309126446, within(1e-9));
        assertThat(huber.outlying().get(0).weight()).isCloseTo(0.0338536232989, within(1e-8));
    }

    @Test
    void casesArePutInOrder() {
        double[] numbers = {12, 3, 5, 1, 2, 4, 6, 9, 8, 7};
        double[] values = {120, 30, 50, 10, 20, 40, 60, 90, 80, 70};
        CaseSeries series = CaseSeries.of(numbers, values, CaseSeries.Scale.LOG).orElseThrow();
        assertThat(series.caseNumber()).containsExactly(1, 2, 3, 4, 5, 6, 7, 8, 9, 12);
        assertThat(series.value()).containsExactly(10, 20, 30, 40, 50, 60, 70, 80, 90, 120);
        assertThat(series.last()).isEqualTo(12);
        assertThat(series.size()).isEqualTo(10);
        assertThat(series.response()[9]).isCloseTo(Math.log(120), within(1e-15));
        assertThat(series.resampled(new int[] {2, 0}).value()).containsExactly(30, 10);
    }

    @Test
    void unfitSeriesAreRefused() {
        double[] nine = {1, 2, 3, 4, 5, 6, 7, 8, 9};
        assertThat(refusal(CaseSeries.of(nine, nine, CaseSeries.Scale.PLAIN)).why())
                .isEqualTo("there are 9 cases with 9 different case numbers");
        double[] few = {1, 1, 2, 2, 3, 3, 4, 4, 5, 5};
        assertThat(refusal(CaseSeries.of(few, few, CaseSeries.Scale.PLAIN)).why())
                .isEqualTo("there are 10 cases with 5 different case numbers");
        double[] enough = {1, 1, 2, 2, 3, 3, 4, 4, 5, 6};
        assertThat(CaseSeries.of(enough, enough, CaseSeries.Scale.PLAIN)).isInstanceOf(Outcome.Found.class);
        double[] zero = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9};
        assertThat(refusal(CaseSeries.of(zero, few, CaseSeries.Scale.PLAIN)).why())
                .isEqualTo("there is a case number 0");
        assertThat(refusal(CaseSeries.of(enough, zero, CaseSeries.Scale.LOG)).why())
                .isEqualTo("case 1 has the value 0, and a duration must be above 0");
        assertThat(CaseSeries.of(enough, zero, CaseSeries.Scale.PLAIN)).isInstanceOf(Outcome.Found.class);
        double[] same = new double[10];
        Arrays.fill(same, 2.5);
        Refusal flat = refusal(CaseSeries.of(enough, same, CaseSeries.Scale.PLAIN));
        assertThat(flat.reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(flat.why()).isEqualTo("all 10 values are 2.5");
        assertThatThrownBy(() -> CaseSeries.of(few, nine, CaseSeries.Scale.PLAIN))
                .hasMessageContaining("10 case numbers for 9 values");
        double[] hole = {1, 2, 3, 4, 5, Double.NaN, 7, 8, 9, 10};
        assertThatThrownBy(() -> CaseSeries.of(hole, few, CaseSeries.Scale.PLAIN))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> CaseSeries.of(few, hole, CaseSeries.Scale.PLAIN))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void valuesOnACurveLeaveNothingToJudgeBy() {
        double[] values = new double[12];
        Arrays.setAll(values, i -> 800 * Math.pow(0.9, Math.log(i + 1) / Math.log(2)));
        Refusal refusal = refusal(LearningFit.of(series(CaseSeries.Scale.LOG, values), LearningModel.POWER, 0.95));
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(refusal.why()).contains("power curve");
    }

    static Refusal refusal(Outcome<?> outcome) {
        assertThat(outcome).isInstanceOf(Outcome.Refused.class);
        return ((Outcome.Refused<?>) outcome).refusal();
    }
}
