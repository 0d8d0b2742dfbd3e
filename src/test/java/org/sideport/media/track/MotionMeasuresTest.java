package org.sideport.media.track;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.sideport.media.track.MotionMeasures.Movement;

class MotionMeasuresTest {

    private static MotionMeasures of(
            DoubleUnaryOperator x, DoubleUnaryOperator y, double seconds, double hz, MotionSettings settings) {
        int n = (int) Math.round(seconds * hz) + 1;
        double[] t = new double[n];
        double[] px = new double[n];
        double[] py = new double[n];
        for (int i = 0; i < n; i++) {
            t[i] = i / hz;
            px[i] = x.applyAsDouble(t[i]);
            py[i] = y.applyAsDouble(t[i]);
        }
        return MotionMeasures.of(t, px, py, settings);
    }

    /** T. Flash, N. Hogan, Journal of Neuroscience 5 (1985): A (10τ³ − 15τ⁴ + 6τ⁵), at rest before and after. */
    private static double leastJerk(double t, double start, double duration, double amplitude) {
        double u = Math.max(0, Math.min(1, (t - start) / duration));
        return amplitude * u * u * u * (10 - 15 * u + 6 * u * u);
    }

    /** Once round a circle of radius 40 is 2π · 40 long, at the speed 2π · 40 / 4 s. */
    @Test
    void aCircleIsAsLongAsItsCircumference() {
        MotionMeasures m = of(
                t -> 40 * Math.cos(Math.PI * t / 2),
                t -> 40 * Math.sin(Math.PI * t / 2),
                4,
                25,
                MotionSettings.usual(10));
        assertThat(m.pathLength()).isCloseTo(2 * Math.PI * 40, Percentage.withPercentage(0.2));
        assertThat(m.peakSpeed()).isCloseTo(20 * Math.PI, Percentage.withPercentage(0.5));
        assertThat(m.durationS()).isEqualTo(4);
        assertThat(m.movements()).hasSize(1);
    }

    /** Smoothing keeps what jitter adds out of the path: raw it would be several hundred pixels longer. */
    @Test
    void jitterOfATrackedPointAddsLittle() {
        Random random = new Random(3);
        MotionMeasures m = of(
                t -> 40 * Math.cos(Math.PI * t / 2) + 0.3 * random.nextGaussian(),
                t -> 40 * Math.sin(Math.PI * t / 2) + 0.3 * random.nextGaussian(),
                4,
                25,
                new MotionSettings(0.4, 10, 0.1, 0.1));
        assertThat(m.pathLength()).isCloseTo(2 * Math.PI * 40, Percentage.withPercentage(3));
    }

    /**
     * The integral of the squared jerk of a movement of least jerk is 720 A²/D⁵: ∫(60 − 360τ + 360τ²)² dτ, see
     * src/test/oracle/track/smoothness.R, and −ln(720/1.875²) = −5.322033893. Neither depends on amplitude or duration.
     */
    @Test
    void aMovementOfLeastJerkHasTheClosedForm() {
        for (double duration : new double[] {0.8, 2}) {
            for (double amplitude : new double[] {5, 90}) {
                MotionMeasures m = of(
                        t -> leastJerk(t, 0, duration, amplitude) * 0.6,
                        t -> leastJerk(t, 0, duration, amplitude) * 0.8,
                        duration,
                        1000,
                        new MotionSettings(0.02, 1e-4, 0, 0));
                assertThat(m.movements()).hasSize(1);
                Movement one = m.movements().get(0);
                assertThat(one.length()).isCloseTo(amplitude, Percentage.withPercentage(0.1));
                assertThat(one.peakSpeed()).isCloseTo(1.875 * amplitude / duration, Percentage.withPercentage(0.2));
                assertThat(one.dimensionlessJerk()).isCloseTo(720, Percentage.withPercentage(3));
                assertThat(one.logDimensionlessJerk()).isCloseTo(-5.322033893, within(0.03));
            }
        }
    }

    /** −1.4058293 and −2.2445454: src/test/oracle/track/smoothness.R, by the Fourier integral. */
    @Test
    void theSpectralArcLengthIsThatOfTheFourierIntegral() {
        double[] one = new double[101];
        double[] two = new double[101];
        for (int i = 0; i <= 100; i++) {
            double u = i / 100.0;
            one[i] = 30 * u * u - 60 * u * u * u + 30 * u * u * u * u;
            double v = i == 100 ? 0 : u % 0.5 / 0.5;
            two[i] = 30 * v * v - 60 * v * v * v + 30 * v * v * v * v;
        }
        assertThat(Smoothness.spectralArcLength(one, 100)).isCloseTo(-1.4058293, within(0.01));
        assertThat(Smoothness.spectralArcLength(two, 100)).isCloseTo(-2.2445454, within(0.02));
    }

    @Test
    void movementsAreCountedBetweenRests() {
        MotionMeasures m = of(
                t -> leastJerk(t, 0.5, 1, 60) - leastJerk(t, 2.5, 1, 60) + leastJerk(t, 4.5, 0.6, 30),
                t -> 0,
                6,
                25,
                MotionSettings.usual(15));
        assertThat(m.movements()).hasSize(3);
        assertThat(m.pathLength()).isCloseTo(150, Percentage.withPercentage(1));
        assertThat(m.movements().get(1).startS()).isBetween(2.5, 2.8);
        assertThat(m.movements().get(1).endS()).isBetween(3.2, 3.5);
        MotionMeasures still = of(t -> 7, t -> 8, 3, 25, MotionSettings.usual(15));
        assertThat(still.movements()).isEmpty();
        assertThat(still.pathLength()).isCloseTo(0, within(1e-9));
        assertThat(still.median(Movement::logDimensionlessJerk)).isNaN();
    }
}
