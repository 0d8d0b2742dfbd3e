package org.sideport.stats.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import org.sideport.stats.Outcome;

/** What must hold for any series. */
class LearningPropertyTest {

    private static double[] durations(long seed) {
        Random random = new Random(seed);
        double[] y = new double[30];
        for (int i = 0; i < 30; i++) {
            y[i] = (300 + 500 * Math.pow(2, -i / 6.0)) * Math.exp(0.1 * random.nextGaussian());
        }
        return y;
    }

    /** Seconds or minutes: parameters change their unit, ratios, case numbers and differences in AICc do not. */
    @Property(tries = 25)
    void theUnitOfADurationDoesNotMatter(
            @ForAll @LongRange(min = 0, max = 10_000) long seed,
            @ForAll @DoubleRange(min = 0.01, max = 100.0) double unit) {
        double[] y = durations(seed);
        double[] scaled = new double[30];
        for (int i = 0; i < 30; i++) {
            scaled[i] = unit * y[i];
        }
        for (LearningModel model : LearningModel.values()) {
            Outcome<LearningFit> one = LearningFit.of(LearningTest.series(CaseSeries.Scale.LOG, y), model, 0.95);
            Outcome<LearningFit> other = LearningFit.of(LearningTest.series(CaseSeries.Scale.LOG, scaled), model, 0.95);
            LearningFit before = one.orElseThrow();
            LearningFit after = other.orElseThrow();
            double[] b = before.fit().parameters();
            double[] a = after.fit().parameters();
            for (int j = 0; j < b.length; j++) {
                boolean pure = model == LearningModel.POWER && j == 1 || model == LearningModel.EXPONENTIAL && j == 2;
                double expected = pure ? b[j] : unit * b[j];
                assertThat(a[j]).isCloseTo(expected, within(1e-5 * Math.abs(expected)));
            }
            assertThat(after.aicc()).isCloseTo(before.aicc(), within(1e-6));
            assertThat(after.valueAt(12)).isCloseTo(unit * before.valueAt(12), within(1e-5 * unit * 800));
        }
    }

    @Property(tries = 25)
    void weightsOfCurvesSumToOneAndTheBestHasNoDistance(@ForAll @LongRange(min = 0, max = 10_000) long seed) {
        ModelComparison comparison = ModelComparison.of(
                        LearningTest.series(CaseSeries.Scale.LOG, durations(seed)),
                        List.of(LearningModel.values()),
                        0.95)
                .orElseThrow();
        assertThat(comparison.candidates().stream()
                        .mapToDouble(ModelComparison.Candidate::weight)
                        .sum())
                .isCloseTo(1, within(1e-12));
        assertThat(comparison.candidates().get(0).delta()).isZero();
        double before = 0;
        for (ModelComparison.Candidate candidate : comparison.candidates()) {
            assertThat(candidate.delta()).isGreaterThanOrEqualTo(before);
            before = candidate.delta();
        }
    }

    /** Derivatives against differences. */
    @Property(tries = 100)
    void derivativesAreThoseOfTheCurve(
            @ForAll @IntRange(min = 1, max = 200) int n,
            @ForAll @DoubleRange(min = 1.0, max = 900.0) double first,
            @ForAll @DoubleRange(min = 0.5, max = 1.5) double factor,
            @ForAll @DoubleRange(min = 1.0, max = 60.0) double half) {
        double[][] parameters = {{first}, {first, factor}, {first, -factor}, {first, 0.4 * first * factor, half}};
        for (LearningModel model : LearningModel.values()) {
            double[] b = parameters[model.ordinal()];
            double[] gradient = new double[b.length];
            double value = model.value(n, b, gradient);
            assertThat(model.value(n, b, null)).isEqualTo(value);
            for (int j = 0; j < b.length; j++) {
                double h = 1e-6 * Math.abs(b[j]);
                double[] up = b.clone();
                double[] down = b.clone();
                up[j] += h;
                down[j] -= h;
                double slope = (model.value(n, up, null) - model.value(n, down, null)) / (2 * h);
                assertThat(gradient[j]).isCloseTo(slope, within(1e-6 * (Math.abs(slope) + Math.abs(value / b[j]))));
            }
        }
    }
}
