package org.sideport.stats.describe;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * How many times as long: the ratio of two groups' geometric means, with limits by Welch's t on the logarithms (Welch 1947,
 * Biometrika 34:28; degrees of freedom after Satterthwaite 1946). The groups may spread differently.
 */
public final class RatioOfGeometricMeans {

    private static final int FEWEST = 3;

    private RatioOfGeometricMeans() {}

    /**
     * @param of above 0
     * @param to above 0; what is divided by
     * @param level nominal coverage, between 0 and 1
     * @return its n counts both groups; refused below three values in a group, for a value not above 0, or if no group
     *     spreads
     */
    public static Outcome<Estimate> of(double[] of, double[] to, double level) {
        if (of.length < FEWEST || to.length < FEWEST) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + of.length + " and " + to.length + " values",
                    "collect at least " + FEWEST + " in each group");
        }
        for (double value : Arrays.stream(new double[][] {of, to})
                .flatMapToDouble(Arrays::stream)
                .toArray()) {
            if (!(value > 0)) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "the value " + value + " is not positive and has no logarithm",
                        "leave such values out, with a reason");
            }
        }
        Moments first = logs(of);
        Moments second = logs(to);
        double a = squared(first) / of.length;
        double b = squared(second) / to.length;
        if (!(a + b > 0)) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION, "all values of each group are equal", "collect more values");
        }
        double df = (a + b) * (a + b) / (a * a / (of.length - 1) + b * b / (to.length - 1));
        double difference = first.mean() - second.mean();
        double se = Math.sqrt(a + b);
        double half = se * new TDistribution(df).inverseCumulativeProbability(0.5 + level / 2);
        double ratio = Math.exp(difference);
        return Outcome.of(new Estimate(
                ratio,
                ratio * se,
                new Interval(Math.exp(difference - half), Math.exp(difference + half), level),
                of.length + to.length,
                "ratio of geometric means, limits by Welch's t on the logarithms",
                List.of()));
    }

    private static Moments logs(double[] values) {
        return Moments.of(Arrays.stream(values).map(Math::log).toArray());
    }

    private static double squared(Moments moments) {
        Double sd = moments.sd();
        return sd == null ? 0 : sd * sd;
    }
}
