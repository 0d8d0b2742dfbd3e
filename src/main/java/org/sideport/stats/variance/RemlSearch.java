package org.sideport.stats.variance;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Minimises the REML criterion over relative variances: Newton steps with the average information, each the minimum of
 * the quadratic model within the bounds, shortened until the criterion falls. A relative variance never falls below
 * {@link #FLOOR}, where the derivatives still have digits; a result at the floor stands for zero.
 */
final class RemlSearch {

    static final double FLOOR = 1e-9;

    /** Beyond this ratio the residual is nought beside the component. */
    static final double CEILING = 1e9;

    private static final int MOST_STEPS = 200;

    /** Predicted fall of the criterion below which the search rests: estimates to about eight digits. */
    private static final double AT_REST = 1e-13;

    private static final double SUFFICIENT = 1e-4;

    private final RemlCriterion criterion;

    RemlSearch(RemlCriterion criterion) {
        this.criterion = criterion;
    }

    /** Where the search came to rest; {@code null} if it did not, or the residual vanished. */
    double @Nullable [] from(double[] start) {
        double[] gamma = Arrays.stream(start)
                .map(g -> Math.min(Math.max(g, FLOOR), CEILING))
                .toArray();
        double value = criterion.at(gamma);
        double ridge = 0;
        for (int step = 0; step < MOST_STEPS; step++) {
            RemlCriterion.Derivatives d = criterion.derivatives(true);
            double[] lower = Arrays.stream(gamma).map(g -> FLOOR - g).toArray();
            double[] direction = BoundedStep.minimise(d.information(), d.gradient(), lower, ridge);
            double fall = 0;
            for (int k = 0; k < gamma.length; k++) {
                fall -= direction[k] * d.gradient()[k];
            }
            if (fall < AT_REST * Math.max(1, Math.abs(value))) {
                return gamma;
            }
            // Rounding of the criterion itself: a smaller rise means nothing.
            double noise = 1e-13 * Math.max(1, Math.abs(value));
            double length = 1;
            double[] trial = moved(gamma, direction, length);
            double at = criterion.at(trial);
            while (!(at <= value - SUFFICIENT * length * fall + noise) && length > 1e-8) {
                length /= 3;
                trial = moved(gamma, direction, length);
                at = criterion.at(trial);
            }
            if (!(at <= value + noise)) {
                return null;
            }
            ridge = length < 0.1 ? Math.max(1e-2, ridge * 10) : ridge / 10;
            gamma = trial;
            value = at;
            if (Arrays.stream(gamma).anyMatch(g -> g >= CEILING)) {
                return null;
            }
        }
        return null;
    }

    private static double[] moved(double[] gamma, double[] direction, double length) {
        double[] moved = new double[gamma.length];
        for (int k = 0; k < gamma.length; k++) {
            moved[k] = Math.min(Math.max(gamma[k] + length * direction[k], FLOOR), CEILING);
        }
        return moved;
    }
}
