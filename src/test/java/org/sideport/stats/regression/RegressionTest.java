package org.sideport.stats.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/** Against R (src/test/oracle/learning/regression.R) on data sets that ship with it. */
class RegressionTest {

    /** Brownlee's stack loss data: air flow, water temperature, acid concentration. */
    static final double[][] STACK = {
        {80, 80, 75, 62, 62, 62, 62, 62, 58, 58, 58, 58, 58, 58, 50, 50, 50, 50, 50, 56, 70},
        {27, 27, 25, 24, 22, 23, 24, 24, 23, 18, 18, 17, 18, 19, 18, 18, 19, 19, 20, 20, 20},
        {89, 88, 90, 87, 87, 87, 93, 93, 87, 80, 89, 88, 82, 93, 89, 86, 72, 79, 80, 82, 91}
    };

    static final double[] LOSS = {42, 37, 37, 28, 18, 18, 19, 20, 15, 14, 14, 13, 11, 12, 8, 7, 8, 8, 9, 15, 15};

    /** Puromycin, treated cells (Bates & Watts 1988, table A1.3): substrate concentration and reaction velocity. */
    static final double[] CONCENTRATION = {.02, .02, .06, .06, .11, .11, .22, .22, .56, .56, 1.1, 1.1};

    static final double[] RATE = {76, 47, 97, 107, 123, 139, 159, 152, 191, 201, 207, 200};

    static final CurveFunction MICHAELIS = (i, b, gradient) -> {
        double x = CONCENTRATION[i];
        if (gradient != null) {
            gradient[0] = x / (b[1] + x);
            gradient[1] = -b[0] * x / ((b[1] + x) * (b[1] + x));
        }
        return b[0] * x / (b[1] + x);
    };

    static DesignMatrix stack() {
        return DesignMatrix.of(List.of("air", "water", "acid"), STACK, true);
    }

    static NonlinearFit puromycin() {
        return NonlinearLeastSquares.fit(List.of("Vm", "K"), MICHAELIS, RATE, List.of(new double[] {200, .05}), 0.95)
                .orElseThrow();
    }

    private static void same(Coefficient found, double value, double se) {
        assertThat(found.value()).isCloseTo(value, within(1e-10 * Math.abs(value)));
        assertThat(found.se()).isCloseTo(se, within(1e-10 * se));
    }

    @Test
    void stackLossComesOutAsFromLm() {
        LinearFit fit = LinearLeastSquares.fit(stack(), LOSS, 0.95).orElseThrow();
        same(fit.coefficients().get(0), -39.919674420124, 11.895996850644);
        same(fit.coefficients().get(1), 0.715640200485, 0.134858185355);
        same(fit.coefficients().get(2), 1.295286124389, 0.368024265273);
        same(fit.coefficients().get(3), -0.152122519149, 0.156294043249);
        Interval air = fit.coefficients().get(1).limits();
        assertThat(air.lower()).isCloseTo(0.431114300224, within(1e-11));
        assertThat(air.upper()).isCloseTo(1.00016610075, within(1e-11));
        assertThat(air.level()).isEqualTo(0.95);
        assertThat(fit.rSquared()).isCloseTo(0.913576904461, within(1e-12));
        assertThat(fit.leverages()[0]).isCloseTo(0.301555468936, within(1e-12));
        assertThat(fit.leverages()[16]).isCloseTo(0.412123497858, within(1e-12));
        assertThat(fit.n()).isEqualTo(21);
        assertThat(fit.df()).isEqualTo(17);
        assertThat(fit.coefficients().get(0).name()).isEqualTo("intercept");
    }

    @Test
    void weightsCountAsInLmAndZeroLeavesOut() {
        double[] weights = new double[21];
        double[] cycle = {1, 2, 0, .5, 3, 1, 1};
        for (int i = 0; i < 21; i++) {
            weights[i] = cycle[i % 7];
        }
        LinearFit fit = LinearLeastSquares.fit(stack(), LOSS, weights, 0.95).orElseThrow();
        same(fit.coefficients().get(0), -33.339117365102, 15.490244147767);
        same(fit.coefficients().get(3), -0.171667235287, 0.193626587250);
        assertThat(fit.residualSd()).isCloseTo(3.23980792813, within(1e-11));
        assertThat(fit.rSquared()).isCloseTo(0.93136998385, within(1e-11));
        assertThat(fit.df()).isEqualTo(14);
        // unweighted residual of the observation that does not count: y less the fitted value
        double fitted = -33.339117365102 + 75 * 0.736904385034 + 25 * 0.981185672695 - 90 * 0.171667235287;
        assertThat(fit.residuals()[2]).isCloseTo(37 - fitted, within(1e-9));
    }

    @Test
    void puromycinComesOutAsFromNls() {
        NonlinearFit fit = puromycin();
        assertThat(fit.coefficients().get(0).value()).isCloseTo(212.6837427905, within(2e-6));
        assertThat(fit.coefficients().get(0).se()).isCloseTo(6.947155177, within(2e-6));
        assertThat(fit.coefficients().get(1).value()).isCloseTo(0.0641212811, within(2e-9));
        assertThat(fit.coefficients().get(1).se()).isCloseTo(0.00828094953, within(2e-9));
        assertThat(fit.residualSd()).isCloseTo(10.9336581913, within(1e-9));
        assertThat(fit.correlations()[0][1]).isCloseTo(0.765083702582, within(1e-7));
        assertThat(fit.correlations()[1][1]).isCloseTo(1, within(1e-14));
        assertThat(fit.df()).isEqualTo(10);
        assertThat(fit.n()).isEqualTo(12);
        assertThat(fit.residuals()[0]).isCloseTo(76 - 212.6837428 * .02 / .0841212812, within(1e-6));
        // ± t(10, 0.975) = 2.228138852 standard errors
        Interval limits = fit.coefficients().get(0).limits();
        assertThat(limits.lower()).isCloseTo(212.6837428 - 2.228138852 * 6.947155177, within(1e-5));
        assertThat(limits.upper()).isCloseTo(212.6837428 + 2.228138852 * 6.947155177, within(1e-5));
        // Bates & Watts 1988, section 2.2: 212.7 and 0.0641
        assertThat(fit.parameters()).containsExactly(new double[] {212.7, 0.0641}, within(0.05));
    }

    @Test
    void profileLimitsAreThoseSolvedForInR() {
        Interval k =
                ProfileLikelihood.limits(MICHAELIS, RATE, puromycin(), 1, 0.95).orElseThrow();
        assertThat(k.lower()).isCloseTo(0.0469203420352, within(1e-9));
        assertThat(k.upper()).isCloseTo(0.0861569134271, within(1e-9));
        Interval vm =
                ProfileLikelihood.limits(MICHAELIS, RATE, puromycin(), 0, 0.95).orElseThrow();
        assertThat(vm.lower()).isCloseTo(197.3019329, within(1e-5));
        assertThat(vm.upper()).isCloseTo(229.289055055, within(1e-5));
        // MASS interpolates the profile: 197.3021 229.2901, 0.04693 0.08616
        assertThat(vm.upper()).isCloseTo(229.2900639549802, within(2e-3));
        Interval narrow =
                ProfileLikelihood.limits(MICHAELIS, RATE, puromycin(), 1, 0.8).orElseThrow();
        assertThat(narrow.lower()).isCloseTo(0.0530318172908, within(1e-9));
        assertThat(narrow.upper()).isCloseTo(0.0770355015145, within(1e-9));
        assertThat(narrow.level()).isEqualTo(0.8);
    }

    /** For a curve that is linear in its one parameter the profile is a parabola and the limits are ± t · se. */
    @Test
    void profileLimitsOfALineAreTheLinearOnes() {
        double[] x = {1, 2, 3, 4, 5};
        double[] y = {2.1, 3.9, 6.2, 7.8, 10.1};
        CurveFunction line = (i, b, gradient) -> {
            if (gradient != null) {
                gradient[0] = x[i];
            }
            return b[0] * x[i];
        };
        NonlinearFit fit = NonlinearLeastSquares.fit(List.of("slope"), line, y, List.of(new double[] {0}), 0.95)
                .orElseThrow();
        Interval limits = ProfileLikelihood.limits(line, y, fit, 0, 0.95).orElseThrow();
        Interval linear = fit.coefficients().get(0).limits();
        assertThat(limits.lower()).isCloseTo(linear.lower(), within(1e-9));
        assertThat(limits.upper()).isCloseTo(linear.upper(), within(1e-9));
    }

    /** The same for a parabola: each of three parameters in its place. */
    @Test
    void profileLimitsOfAParabolaAreTheLinearOnes() {
        double[] x = {-1, 0, 1, 2, 3, 4, 6};
        double[] y = {3.2, 0.9, 0.8, 3.4, 8.7, 17.1, 42.6};
        CurveFunction parabola = (i, b, gradient) -> {
            if (gradient != null) {
                gradient[0] = 1;
                gradient[1] = x[i];
                gradient[2] = x[i] * x[i];
            }
            return b[0] + b[1] * x[i] + b[2] * x[i] * x[i];
        };
        NonlinearFit fit = NonlinearLeastSquares.fit(
                        List.of("a", "b", "c"), parabola, y, List.of(new double[] {0, 0, 0}), 0.9)
                .orElseThrow();
        LinearFit linear =
                LinearLeastSquares.fit(DesignMatrix.polynomial(x, 2), y, 0.9).orElseThrow();
        for (int j = 0; j < 3; j++) {
            same(
                    fit.coefficients().get(j),
                    linear.coefficients().get(j).value(),
                    linear.coefficients().get(j).se());
            Interval limits = ProfileLikelihood.limits(parabola, y, fit, j, 0.9).orElseThrow();
            Interval expected = linear.coefficients().get(j).limits();
            assertThat(limits.lower()).isCloseTo(expected.lower(), within(1e-8));
            assertThat(limits.upper()).isCloseTo(expected.upper(), within(1e-8));
        }
    }

    /** NIST StRD NoInt1 and NoInt2, certified R² about zero. */
    @Test
    void withoutInterceptTheExplainedShareIsAboutZero() {
        double[] x = new double[11];
        double[] y = new double[11];
        for (int i = 0; i < 11; i++) {
            x[i] = 60 + i;
            y[i] = 130 + i;
        }
        assertThat(LinearLeastSquares.fit(DesignMatrix.of(List.of("x"), new double[][] {x}, false), y, 0.95)
                        .orElseThrow()
                        .rSquared())
                .isCloseTo(0.999365492298663, within(2e-15));
        assertThat(LinearLeastSquares.fit(
                                DesignMatrix.of(List.of("x"), new double[][] {{4, 5, 6}}, false),
                                new double[] {3, 4, 4},
                                0.95)
                        .orElseThrow()
                        .rSquared())
                .isCloseTo(0.993348115299335, within(2e-15));
        assertThat(refusal(LinearLeastSquares.fit(stack(), LOSS, few(), 0.95)).why())
                .isEqualTo("there are 4 observations for 4 terms");
    }

    /** Four observations count, the others have weight 0. */
    private static double[] few() {
        double[] weights = new double[21];
        weights[0] = weights[5] = weights[9] = weights[20] = 1;
        return weights;
    }

    /** y = b0 exp(−b1 x) at x = 0 and 1 only, and nothing left at 1: b1 may be as large as it likes. */
    @Test
    void aParameterThatTheDataDoNotBoundHasAnInfiniteLimit() {
        double[] x = {0, 0, 0, 0, 1, 1, 1, 1};
        double[] y = {10.1, 9.9, 10.2, 9.8, 0.3, 0.1, -0.1, -0.1};
        CurveFunction decay = (i, b, gradient) -> {
            double e = Math.exp(-b[1] * x[i]);
            if (gradient != null) {
                gradient[0] = e;
                gradient[1] = -x[i] * b[0] * e;
            }
            return b[0] * e;
        };
        NonlinearFit fit = NonlinearLeastSquares.fit(
                        List.of("height", "rate"), decay, y, List.of(new double[] {9, 2}), 0.95)
                .orElseThrow();
        Interval rate = ProfileLikelihood.limits(decay, y, fit, 1, 0.95).orElseThrow();
        // mean 0.05 of the last four: log(10 / 0.05) = 5.30
        assertThat(fit.parameters()[1]).isCloseTo(Math.log(10 / 0.05), within(1e-9));
        assertThat(rate.upper()).isInfinite();
        // s² = 0.21 / 6, t(6) = 2.446912: the mean at 1 may rise by t s / 2 = 0.2289 (height at 10 throughout)
        assertThat(rate.lower()).isCloseTo(Math.log(10 / (0.05 + 0.5 * 2.446912 * Math.sqrt(0.21 / 6))), within(5e-4));
    }

    @Test
    void huberIsThatOfRlm() {
        RobustFit fit =
                RobustRegression.linear(stack(), LOSS, RobustLoss.HUBER, 0.95).orElseThrow();
        same(fit.coefficients().get(0), -41.026485373295, 9.806872294353);
        same(fit.coefficients().get(1), 0.829385770254, 0.111174962320);
        same(fit.coefficients().get(2), 0.926059415549, 0.303393403350);
        same(fit.coefficients().get(3), -0.127846317965, 0.128846345687);
        assertThat(fit.scale()).isCloseTo(2.44048904599, within(1e-10));
        assertThat(fit.weights()[0]).isEqualTo(1);
        assertThat(fit.weights()[2]).isCloseTo(0.78579661253, within(1e-10));
        assertThat(fit.weights()[3]).isCloseTo(0.504855924898, within(1e-10));
        assertThat(fit.weights()[20]).isCloseTo(0.368083781778, within(1e-10));
        assertThat(fit.loss()).isEqualTo(RobustLoss.HUBER);
        assertThat(fit.n()).isEqualTo(21);
        assertThat(fit.df()).isEqualTo(17);
        // t(17, 0.975) = 2.109815578
        Interval air = fit.coefficients().get(1).limits();
        assertThat(air.lower()).isCloseTo(0.829385770254 - 2.109815578 * 0.111174962320, within(1e-9));
        assertThat(air.upper()).isCloseTo(0.829385770254 + 2.109815578 * 0.111174962320, within(1e-9));
    }

    @Test
    void bisquareIsThatOfRlmStartedFromHuber() {
        RobustFit fit = RobustRegression.linear(stack(), LOSS, RobustLoss.BISQUARE, 0.95)
                .orElseThrow();
        same(fit.coefficients().get(0), -42.285321536491, 9.531385661490);
        same(fit.coefficients().get(1), 0.927558992802, 0.108051926238);
        same(fit.coefficients().get(2), 0.650711198390, 0.294870724088);
        same(fit.coefficients().get(3), -0.112333123036, 0.125226899561);
        assertThat(fit.scale()).isCloseTo(2.28185331457, within(1e-10));
        assertThat(fit.weights()[3]).isCloseTo(0.33578797788, within(1e-9));
        assertThat(fit.weights()[20]).isCloseTo(0.00221785531655, within(1e-9));
        assertThat(fit.iterations()).isGreaterThan(10);
    }

    /** A curve that is linear in its parameters must give what the linear fit gives. */
    @Test
    void robustCurveAndRobustLineAgree() {
        double[] x = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10};
        double[] y = {3.1, 4.8, 7.2, 8.9, 11.3, 12.7, 15.2, 40, 18.8, 21.1};
        CurveFunction line = (i, b, gradient) -> {
            if (gradient != null) {
                gradient[0] = 1;
                gradient[1] = x[i];
            }
            return b[0] + b[1] * x[i];
        };
        for (RobustLoss loss : RobustLoss.values()) {
            RobustFit curve = RobustRegression.curve(
                            List.of("a", "b"), line, y, List.of(new double[] {0, 1}), loss, 0.9)
                    .orElseThrow();
            RobustFit linear = RobustRegression.linear(
                            DesignMatrix.of(List.of("x"), new double[][] {x}, true), y, loss, 0.9)
                    .orElseThrow();
            for (int j = 0; j < 2; j++) {
                same(
                        curve.coefficients().get(j),
                        linear.parameters()[j],
                        linear.coefficients().get(j).se());
            }
            assertThat(curve.weights()).containsExactly(linear.weights(), within(1e-9));
            assertThat(curve.parameters()[1]).isBetween(1.9, 2.15);
            assertThat(curve.weights()[7]).isLessThan(loss == RobustLoss.HUBER ? 0.1 : 1e-12);
        }
    }

    @Test
    void weightsAreThoseOfTheFormulas() {
        assertThat(RobustLoss.HUBER.weight(1.345)).isEqualTo(1);
        assertThat(RobustLoss.HUBER.weight(-2.69)).isCloseTo(0.5, within(1e-15));
        assertThat(RobustLoss.HUBER.influenceSlope(1.345)).isEqualTo(1);
        assertThat(RobustLoss.HUBER.influenceSlope(-1.35)).isZero();
        assertThat(RobustLoss.BISQUARE.weight(0)).isEqualTo(1);
        assertThat(RobustLoss.BISQUARE.weight(4.685 / 2)).isCloseTo(0.5625, within(1e-15));
        assertThat(RobustLoss.BISQUARE.weight(-5)).isZero();
        assertThat(RobustLoss.BISQUARE.influenceSlope(4.685 / 2)).isCloseTo(0.75 * -0.25, within(1e-14));
        assertThat(RobustLoss.BISQUARE.influenceSlope(4.7)).isZero();
    }

    /** AIC of nls counts the variance as a parameter; the correction is Hurvich & Tsai's. */
    @Test
    void akaikeIsThatOfRWithTheCorrection() {
        NonlinearFit fit = puromycin();
        assertThat(AkaikeCriterion.logLikelihood(fit.sumOfSquares(), 12)).isCloseTo(-44.6354843245, within(1e-9));
        assertThat(AkaikeCriterion.corrected(fit.sumOfSquares(), 12, 3)).isCloseTo(98.2709686489, within(1e-9));
    }

    /** Differences 0, 2 and 10: exp(0), exp(−1), exp(−5) over their sum (Burnham & Anderson 2002, page 75). */
    @Test
    void akaikeWeightsSumToOne() {
        double sum = 1 + Math.exp(-1) + Math.exp(-5);
        assertThat(AkaikeCriterion.weights(-14, -12, -4))
                .containsExactly(new double[] {1 / sum, Math.exp(-1) / sum, Math.exp(-5) / sum}, within(1e-15));
    }

    @Test
    void whatCannotBeFittedIsRefused() {
        DesignMatrix three = DesignMatrix.polynomial(new double[] {1, 2, 3}, 2);
        assertThat(refusal(LinearLeastSquares.fit(three, new double[] {1, 2, 4}, 0.95))
                        .why())
                .isEqualTo("there are 3 observations for 3 terms");
        DesignMatrix twins =
                DesignMatrix.of(List.of("a", "b"), new double[][] {{.1, .2, .3, .4, .7}, {.3, .6, .9, 1.2, 2.1}}, true);
        Refusal dependent = refusal(LinearLeastSquares.fit(twins, new double[] {1, 2, 3, 5, 4}, 0.95));
        assertThat(dependent.reason()).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        assertThat(dependent.why()).contains("intercept, a, b");
        Refusal few = refusal(NonlinearLeastSquares.fit(
                List.of("Vm", "K"), MICHAELIS, new double[] {1, 2}, List.of(new double[] {1, 1}), 0.95));
        assertThat(few.why()).isEqualTo("there are 2 observations for 2 parameters");
        assertThat(few.remedy()).contains("at least 3 observations");
        CurveFunction flat = (i, b, gradient) -> {
            if (gradient != null) {
                gradient[0] = 1;
                gradient[1] = 1;
            }
            return b[0] + b[1];
        };
        assertThat(refusal(NonlinearLeastSquares.fit(List.of("p", "q"), flat, RATE, List.of(new double[] {1, 1}), 0.95))
                        .reason())
                .isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        CurveFunction nowhere = (i, b, gradient) -> Double.NaN;
        Refusal lost = refusal(NonlinearLeastSquares.fit(List.of("p"), nowhere, RATE, List.of(new double[] {1}), 0.95));
        assertThat(lost.reason()).isEqualTo(Refusal.Reason.NOT_CONVERGED);
        assertThat(lost.why()).contains("the search for p");
        double[] mostlyOnALine = {1, 2, 3, 4, 5, 6, 9};
        Refusal exact = refusal(RobustRegression.linear(
                DesignMatrix.of(List.of("x"), new double[][] {{1, 2, 3, 4, 5, 6, 7}}, true),
                mostlyOnALine,
                RobustLoss.BISQUARE,
                0.95));
        assertThat(exact.reason()).isIn(Refusal.Reason.NO_VARIATION, Refusal.Reason.NOT_CONVERGED);
    }

    @Test
    void valuesOnTheCurveHaveNoProfile() {
        double[] y = {2, 4, 6};
        CurveFunction line = (i, b, gradient) -> {
            if (gradient != null) {
                gradient[0] = i + 1;
            }
            return b[0] * (i + 1);
        };
        NonlinearFit fit = NonlinearLeastSquares.fit(List.of("slope"), line, y, List.of(new double[] {1}), 0.95)
                .orElseThrow();
        assertThat(refusal(ProfileLikelihood.limits(line, y, fit, 0, 0.95)).reason())
                .isEqualTo(Refusal.Reason.NO_VARIATION);
    }

    /** Least squares of z near 1 and z² near 4 have hollows at about 2 and −2; the second is the shallower. */
    @Test
    void aProfileThatMeetsABetterFitIsRefused() {
        double[] y = {1, 4};
        CurveFunction hollows = (i, b, gradient) -> {
            if (gradient != null) {
                gradient[0] = i == 0 ? 1 : 2 * b[0];
            }
            return i == 0 ? b[0] : b[0] * b[0];
        };
        NonlinearFit shallow = NonlinearLeastSquares.fit(List.of("z"), hollows, y, List.of(new double[] {-2.5}), 0.95)
                .orElseThrow();
        assertThat(shallow.parameters()[0]).isBetween(-2.0, -1.5);
        assertThat(refusal(ProfileLikelihood.limits(hollows, y, shallow, 0, 0.6))
                        .why())
                .contains("limits of z met a better fit");
        NonlinearFit both = NonlinearLeastSquares.fit(
                        List.of("z"), hollows, y, List.of(new double[] {-2.5}, new double[] {2.5}), 0.95)
                .orElseThrow();
        assertThat(both.parameters()[0]).isBetween(1.9, 2.0);
        assertThat(both.sumOfSquares()).isLessThan(shallow.sumOfSquares());
    }

    @Test
    void wrongCallsAreErrors() {
        assertThatThrownBy(() -> DesignMatrix.of(List.of(), new double[][] {}, true))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> DesignMatrix.of(List.of("a"), new double[][] {{1, Double.NaN}}, true))
                .hasMessageContaining("a has NaN");
        assertThatThrownBy(() -> DesignMatrix.of(List.of("a", "b"), new double[][] {{1}, {1, 2}}, true))
                .hasMessageContaining("columns of 1 and 2");
        assertThatThrownBy(() -> DesignMatrix.polynomial(new double[] {1}, 0)).hasMessageContaining("degree 0");
        assertThatThrownBy(() -> DesignMatrix.polynomial(new double[] {Double.NaN}, 1))
                .hasMessageContaining("x has NaN");
        assertThatThrownBy(() -> LinearLeastSquares.fit(stack(), new double[3], 0.95))
                .hasMessageContaining("21 observations, 3 values");
        assertThatThrownBy(() -> LinearLeastSquares.fit(stack(), new double[21], new double[2], 0.95))
                .hasMessageContaining("2 weights for 21");
        double[] bad = LOSS.clone();
        bad[3] = Double.NaN;
        assertThatThrownBy(() -> LinearLeastSquares.fit(stack(), bad, 0.95)).hasMessageContaining("NaN");
        double[] negative = LOSS.clone();
        negative[0] = -1;
        assertThatThrownBy(() -> LinearLeastSquares.fit(stack(), LOSS, negative, 0.95))
                .hasMessageContaining("weight -1");
        negative[0] = Double.POSITIVE_INFINITY;
        assertThatThrownBy(() -> LinearLeastSquares.fit(stack(), LOSS, negative, 0.95))
                .hasMessageContaining("weight Inf");
        assertThatThrownBy(() -> NonlinearLeastSquares.fit(List.of("a"), MICHAELIS, RATE, List.of(), 0.95))
                .hasMessageContaining("each of 1 parameters");
        assertThatThrownBy(() ->
                        NonlinearLeastSquares.fit(List.of("a"), MICHAELIS, RATE, List.of(new double[] {1, 2}), 0.95))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> AkaikeCriterion.logLikelihood(0, 3)).hasMessageContaining("0");
        assertThatThrownBy(() -> AkaikeCriterion.corrected(1, 4, 3)).hasMessageContaining("4 observations");
        assertThat(AkaikeCriterion.corrected(1, 5, 3)).isFinite();
    }

    @Test
    void constantsWithoutSpreadAreExplainedInFull() {
        LinearFit fit = LinearLeastSquares.fit(
                        DesignMatrix.of(List.of("x"), new double[][] {{1, 2, 3, 4}}, true),
                        new double[] {5, 5, 5, 5},
                        0.95)
                .orElseThrow();
        assertThat(fit.rSquared()).isEqualTo(1);
        assertThat(fit.residualSd()).isZero();
        assertThat(fit.coefficients().get(1).value()).isZero();
    }

    static Refusal refusal(Outcome<?> outcome) {
        assertThat(outcome).isInstanceOf(Outcome.Refused.class);
        return ((Outcome.Refused<?>) outcome).refusal();
    }
}
