package org.sideport.stats.describe;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Centre and spread of right-skewed positive values, for instance durations, on the log scale.
 *
 * @param mean exp of the mean of the logs, with Student's limits computed on the logs; its {@code se} is by the delta
 *     method
 * @param sdFactor exp of the sample SD of the logs, a factor without unit, at least 1
 */
public record GeometricMean(Estimate mean, double sdFactor) {

    /**
     * @param values positive
     * @param level nominal coverage, for instance 0.95
     * @return refused below two values, or if one is not positive
     */
    public static Outcome<GeometricMean> of(double[] values, double level) {
        if (values.length < 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are only " + values.length + " values, which say nothing of the spread",
                    "collect at least two");
        }
        for (double value : values) {
            if (!(value > 0)) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "the value " + value + " is not positive and has no logarithm",
                        "leave such values out, with a reason, or use the median");
            }
        }
        Moments logs = Moments.of(Arrays.stream(values).map(Math::log).toArray());
        double sd = logs.sd() == null ? 0 : logs.sd();
        double se = sd / Math.sqrt(values.length);
        double half = se * new TDistribution(values.length - 1).inverseCumulativeProbability(0.5 + level / 2);
        double centre = Math.exp(logs.mean());
        return Outcome.of(new GeometricMean(
                new Estimate(
                        centre,
                        centre * se,
                        new Interval(Math.exp(logs.mean() - half), Math.exp(logs.mean() + half), level),
                        values.length,
                        "geometric mean, limits of Student's t on the logarithms",
                        List.of()),
                Math.exp(sd)));
    }
}
