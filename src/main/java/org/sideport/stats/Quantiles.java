package org.sideport.stats;

import java.util.Arrays;

/**
 * Sample quantiles by the definitions of Hyndman & Fan 1996, The American Statistician 50:361. The default is type 7, the
 * value at position {@code (n − 1) p + 1} of the ordered sample, interpolated linearly: the default of R and of
 * spreadsheets' PERCENTILE, so that a workbook recomputes to the same figure.
 *
 * <p>The library's percentile sorts anew at each call and knows no 0th percentile; a resampling asks for two quantiles
 * of thousands of sorted values.
 */
public final class Quantiles {

    private Quantiles() {}

    /**
     * @param values at least one number, none of them NaN, any order; not changed
     * @param p 0 to 1
     * @throws IllegalArgumentException if there are no values or {@code p} lies outside 0 to 1
     */
    public static double of(double[] values, double p, QuantileType type) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return ofSorted(sorted, p, type);
    }

    /**
     * The same of values that are in order already, at the cost of two look-ups.
     *
     * @param sorted at least one value, ascending
     * @param p 0 to 1
     */
    public static double ofSorted(double[] sorted, double p, QuantileType type) {
        if (sorted.length == 0 || !(p >= 0 && p <= 1)) {
            throw new IllegalArgumentException("quantile " + p + " of " + sorted.length + " values");
        }
        return type.quantile(sorted, p);
    }

    /**
     * @param values at least one number, any order; not changed
     * @param p 0 to 1
     * @throws IllegalArgumentException if there are no values or {@code p} lies outside 0 to 1
     */
    public static double type7(double[] values, double p) {
        return of(values, p, QuantileType.LINEAR);
    }

    /**
     * The same of values that are in order already.
     *
     * @param sorted at least one value, ascending
     * @param p 0 to 1
     */
    public static double type7Sorted(double[] sorted, double p) {
        return ofSorted(sorted, p, QuantileType.LINEAR);
    }
}
