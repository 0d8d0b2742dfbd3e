package org.sideport.stats.describe;

import org.jspecify.annotations.Nullable;

/**
 * Mean, spread and the dependence between neighbours of a series, summed without loss of digits.
 *
 * @param n number of values
 * @param mean unit of the values
 * @param sd sample standard deviation (n − 1); {@code null} below two values
 * @param lag1 autocorrelation at lag 1, {@code Σ (x_i − x̄)(x_{i+1} − x̄) / Σ (x_i − x̄)²}, the definition of NIST's
 *     reference data sets and of Box & Jenkins; {@code null} below two values or where they do not vary
 */
public record Moments(
        int n, double mean, @Nullable Double sd, @Nullable Double lag1) {

    /**
     * @param values at least one finite number, in the order of the series
     * @throws IllegalArgumentException if there are none or one is not finite
     */
    public static Moments of(double... values) {
        if (values.length == 0) {
            throw new IllegalArgumentException("moments need at least one value");
        }
        for (double value : values) {
            if (!Double.isFinite(value)) {
                throw new IllegalArgumentException("not a finite value: " + value);
            }
        }
        Centre centre = Centre.of(values);
        if (values.length == 1) {
            return new Moments(1, values[0], null, null);
        }
        ExactSum squares = new ExactSum();
        ExactSum products = new ExactSum();
        double before = 0;
        for (double value : values) {
            double deviation = centre.deviation(value);
            squares.addProduct(deviation, deviation);
            products.addProduct(before, deviation);
            before = deviation;
        }
        double total = squares.value();
        return new Moments(
                values.length,
                centre.high(),
                Math.sqrt(total / (values.length - 1)),
                total > 0 ? (Double) (products.value() / total) : null);
    }
}
