package org.sideport.stats;

import java.util.Arrays;
import org.hipparchus.stat.descriptive.moment.Mean;
import org.hipparchus.stat.descriptive.moment.StandardDeviation;
import org.jspecify.annotations.Nullable;

/**
 * A sample described: centre and spread on the plain and on the log scale. Durations are right-skewed, so the median,
 * the quantiles and the geometric mean say more than mean and SD.
 *
 * @param n number of values
 * @param mean arithmetic mean, unit of the values
 * @param sd sample standard deviation (n − 1); {@code null} below two values
 * @param median quantile 0.5 of type 7, see {@link Quantiles}; likewise the other quantiles
 * @param geometricMean exp of the mean of the logs; {@code null} if a value is not positive
 * @param geometricSd exp of the sample SD of the logs, a factor without unit; {@code null} below two values or if a
 *     value is not positive
 */
public record Distribution(
        int n,
        double mean,
        @Nullable Double sd,
        double median,
        double q1,
        double q3,
        double p10,
        double p90,
        @Nullable Double geometricMean,
        @Nullable Double geometricSd) {

    /**
     * @param values at least one finite number
     * @throws IllegalArgumentException if there are none, or one is not finite
     */
    public static Distribution of(double... values) {
        if (values.length == 0) {
            throw new IllegalArgumentException("a distribution needs at least one value");
        }
        for (double value : values) {
            if (!Double.isFinite(value)) {
                throw new IllegalArgumentException("not a finite value: " + value);
            }
        }
        boolean positive = Arrays.stream(values).allMatch(v -> v > 0);
        double[] logs = positive ? Arrays.stream(values).map(Math::log).toArray() : new double[0];
        return new Distribution(
                values.length,
                new Mean().evaluate(values),
                sampleSd(values),
                Quantiles.type7(values, 0.5),
                Quantiles.type7(values, 0.25),
                Quantiles.type7(values, 0.75),
                Quantiles.type7(values, 0.1),
                Quantiles.type7(values, 0.9),
                positive ? (Double) Math.exp(new Mean().evaluate(logs)) : null,
                exp(sampleSd(logs)));
    }

    private static @Nullable Double sampleSd(double[] values) {
        return values.length < 2 ? null : (Double) new StandardDeviation().evaluate(values);
    }

    private static @Nullable Double exp(@Nullable Double log) {
        return log == null ? null : (Double) Math.exp(log);
    }
}
