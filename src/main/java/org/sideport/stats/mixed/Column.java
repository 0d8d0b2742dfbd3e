package org.sideport.stats.mixed;

import java.util.Arrays;

/**
 * One column of a design matrix.
 *
 * @param name for people and for the results
 * @param values one finite number for each observation; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record Column(String name, double[] values) {

    /** The name of the column of ones. */
    public static final String INTERCEPT = "intercept";

    public Column {
        for (double value : values) {
            if (!Double.isFinite(value)) {
                throw new IllegalArgumentException(name + ": not a finite value: " + value);
            }
        }
    }

    /** A column of {@code n} ones. */
    public static Column intercept(int n) {
        double[] ones = new double[n];
        Arrays.fill(ones, 1);
        return new Column(INTERCEPT, ones);
    }
}
