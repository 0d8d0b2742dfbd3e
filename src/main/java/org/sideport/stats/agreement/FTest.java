package org.sideport.stats.agreement;

import org.hipparchus.distribution.continuous.FDistribution;
import org.hipparchus.special.Beta;

/**
 * Test of a ratio of two mean squares against one.
 *
 * @param f the ratio, 0 or more, finite
 * @param df1 degrees of freedom of the numerator
 * @param df2 degrees of freedom of the denominator
 * @param p probability of such a ratio or a larger one where the true ratio is one
 */
public record FTest(double f, double df1, double df2, double p) {

    private static final double ACCURACY = 1e-12;

    static FTest of(double f, double df1, double df2) {
        return new FTest(f, df1, df2, upperTail(f, df1, df2));
    }

    /** Straight from the incomplete beta function: one minus the lower tail would lose the digits of a small tail. */
    static double upperTail(double f, double df1, double df2) {
        return Beta.regularizedBeta(df2 / (df2 + df1 * f), df2 / 2, df1 / 2);
    }

    static double quantile(double probability, double df1, double df2) {
        return new FDistribution(df1, df2, ACCURACY).inverseCumulativeProbability(probability);
    }
}
