package org.sideport.stats;

import org.hipparchus.stat.descriptive.rank.Percentile;
import org.hipparchus.stat.descriptive.rank.Percentile.EstimationType;

/**
 * Sample quantiles of Hyndman and Fan's type 7 (Hyndman & Fan 1996, The American Statistician 50:361, definition 7): the
 * value at position {@code (n − 1) p + 1} of the ordered sample, interpolated linearly. It is the default of R and of
 * spreadsheets' PERCENTILE, so that a workbook recomputes to the same figure.
 */
public final class Quantiles {

    private Quantiles() {}

    /**
     * @param values at least one finite number, any order; not changed
     * @param p 0 to 1
     * @throws IllegalArgumentException if there are no values or {@code p} lies outside 0 to 1
     */
    public static double type7(double[] values, double p) {
        if (values.length == 0 || !(p >= 0 && p <= 1)) {
            throw new IllegalArgumentException("quantile " + p + " of " + values.length + " values");
        }
        Percentile percentile = new Percentile().withEstimationType(EstimationType.R_7);
        // Hipparchus takes (0, 100]: its 0th percentile is the minimum by definition of type 7.
        return p == 0 ? java.util.Arrays.stream(values).min().orElseThrow() : percentile.evaluate(values, p * 100);
    }

    /**
     * The same of values that are in order already, at the cost of two look-ups.
     *
     * @param sorted at least one value, ascending
     * @param p 0 to 1
     */
    public static double type7Sorted(double[] sorted, double p) {
        if (sorted.length == 0 || !(p >= 0 && p <= 1)) {
            throw new IllegalArgumentException("quantile " + p + " of " + sorted.length + " values");
        }
        double position = (sorted.length - 1) * p;
        int below = (int) position;
        double lower = sorted[below];
        return below + 1 == sorted.length ? lower : lower + (position - below) * (sorted[below + 1] - lower);
    }
}
