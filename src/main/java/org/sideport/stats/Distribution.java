package org.sideport.stats;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.describe.Moments;

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
        Moments moments = Moments.of(values);
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        @Nullable
        Moments logs =
                sorted[0] > 0 ? Moments.of(Arrays.stream(values).map(Math::log).toArray()) : null;
        return new Distribution(
                values.length,
                moments.mean(),
                moments.sd(),
                Quantiles.type7Sorted(sorted, 0.5),
                Quantiles.type7Sorted(sorted, 0.25),
                Quantiles.type7Sorted(sorted, 0.75),
                Quantiles.type7Sorted(sorted, 0.1),
                Quantiles.type7Sorted(sorted, 0.9),
                logs == null ? null : exp(logs.mean()),
                logs == null ? null : exp(logs.sd()));
    }

    private static @Nullable Double exp(@Nullable Double log) {
        return log == null ? null : (Double) Math.exp(log);
    }
}
