package org.sideport.stats.mixed;

import org.hipparchus.special.Gamma;

/**
 * Likelihood-ratio test of whether subjects differ in the last random column at all. Zero lies on the boundary, so the
 * statistic is distributed under the null hypothesis as an even mixture of chi-square with q − 1 and q degrees of freedom
 * (Stram & Lee 1994, Biometrics 50:1171, case 3), which with one random column is half a point mass at zero.
 *
 * @param ratio fall of the criterion when the column is let in, at least 0
 * @param p of the mixture
 * @param pConservative of the plain chi-square with q degrees of freedom
 * @param randomColumns q, with the column tested
 */
public record SlopeVarianceTest(double ratio, double p, double pConservative, int randomColumns) {

    static SlopeVarianceTest of(double without, double with, int q) {
        double ratio = Math.max(0, without - with);
        double upper = tail(ratio, q);
        return new SlopeVarianceTest(ratio, (tail(ratio, q - 1) + upper) / 2, upper, q);
    }

    private static double tail(double ratio, int df) {
        if (df == 0) {
            return ratio > 0 ? 0 : 1;
        }
        return Gamma.regularizedGammaQ(df / 2.0, ratio / 2);
    }
}
