package org.sideport.stats.regression;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.LongRange;

/** What must hold for any data. */
class RegressionPropertyTest {

    private static double[][] data(long seed) {
        Random random = new Random(seed);
        double[][] data = new double[2][15];
        for (int i = 0; i < 15; i++) {
            data[0][i] = i + random.nextDouble();
            data[1][i] = 3 - 0.4 * data[0][i] + random.nextGaussian();
        }
        return data;
    }

    private static DesignMatrix line(double[] x) {
        return DesignMatrix.of(List.of("x"), new double[][] {x}, true);
    }

    @Property(tries = 60)
    void scaleAndShiftOfTheResponsePassThrough(
            @ForAll @LongRange(min = 0, max = 10_000) long seed,
            @ForAll @DoubleRange(min = 0.01, max = 100) double scale,
            @ForAll @DoubleRange(min = -100, max = 100) double shift) {
        double[][] data = data(seed);
        double[] changed = new double[15];
        for (int i = 0; i < 15; i++) {
            changed[i] = scale * data[1][i] + shift;
        }
        for (RobustLoss loss : RobustLoss.values()) {
            RobustFit before =
                    RobustRegression.linear(line(data[0]), data[1], loss, 0.95).orElseThrow();
            RobustFit after =
                    RobustRegression.linear(line(data[0]), changed, loss, 0.95).orElseThrow();
            double tolerance = 1e-6 * (1 + Math.abs(shift) + scale * 10);
            assertThat(after.parameters()[0]).isCloseTo(scale * before.parameters()[0] + shift, within(tolerance));
            assertThat(after.parameters()[1]).isCloseTo(scale * before.parameters()[1], within(tolerance));
            assertThat(after.coefficients().get(1).se())
                    .isCloseTo(scale * before.coefficients().get(1).se(), within(tolerance));
            assertThat(after.weights()).containsExactly(before.weights(), within(1e-5));
            for (double weight : after.weights()) {
                assertThat(weight).isBetween(0.0, 1.0);
            }
        }
    }

    @Property(tries = 60)
    void residualsAreOrthogonalToTheTermsAndLeveragesSumToTheirNumber(
            @ForAll @LongRange(min = 0, max = 10_000) long seed) {
        double[][] data = data(seed);
        LinearFit fit = LinearLeastSquares.fit(DesignMatrix.polynomial(data[0], 3), data[1], 0.95)
                .orElseThrow();
        double leverage = 0;
        for (int d = 0; d <= 3; d++) {
            double product = 0;
            double size = 0;
            for (int i = 0; i < 15; i++) {
                product += fit.residuals()[i] * Math.pow(data[0][i], d);
                size += Math.abs(fit.residuals()[i]) * Math.pow(data[0][i], d);
            }
            assertThat(Math.abs(product)).isLessThan(1e-11 * size);
        }
        for (double h : fit.leverages()) {
            assertThat(h).isBetween(0.0, 1.0);
            leverage += h;
        }
        assertThat(leverage).isCloseTo(4, within(1e-12));
        assertThat(fit.rSquared()).isBetween(0.0, 1.0);
    }

    @Property(tries = 40)
    void profileLimitsWidenWithTheLevelAndHoldTheEstimate(
            @ForAll @LongRange(min = 0, max = 10_000) long seed,
            @ForAll @DoubleRange(min = 0.5, max = 0.9) double level) {
        Random random = new Random(seed);
        double[] x = new double[20];
        double[] y = new double[20];
        for (int i = 0; i < 20; i++) {
            x[i] = 0.25 * i;
            y[i] = 5 * Math.exp(-0.7 * x[i]) + 0.2 * random.nextGaussian();
        }
        CurveFunction decay = (i, b, gradient) -> {
            double e = Math.exp(-b[1] * x[i]);
            if (gradient != null) {
                gradient[0] = e;
                gradient[1] = -x[i] * b[0] * e;
            }
            return b[0] * e;
        };
        NonlinearFit fit = NonlinearLeastSquares.fit(
                        List.of("height", "rate"), decay, y, List.of(new double[] {4, 1}), 0.95)
                .orElseThrow();
        for (int j = 0; j < 2; j++) {
            var narrow = ProfileLikelihood.limits(decay, y, fit, j, level).orElseThrow();
            var wide = ProfileLikelihood.limits(decay, y, fit, j, level + 0.08).orElseThrow();
            assertThat(narrow.contains(fit.parameters()[j])).isTrue();
            assertThat(wide.lower()).isLessThan(narrow.lower());
            assertThat(wide.upper()).isGreaterThan(narrow.upper());
        }
    }
}
