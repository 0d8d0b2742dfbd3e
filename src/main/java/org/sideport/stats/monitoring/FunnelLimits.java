package org.sideport.stats.monitoring;

import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.sideport.stats.Interval;

/**
 * Limits of a funnel plot: between which the share of failures among n cases is to be expected if each fails with the same
 * probability. Exact binomial quantiles, interpolated between whole numbers of failures so that the limits do not jump
 * (Spiegelhalter 2005, Statistics in Medicine 24:1185, appendix A.1.1). They hold for one person looked at alone: of 20
 * people one is expected outside the 95 % limits by chance.
 */
public final class FunnelLimits {

    private FunnelLimits() {}

    /**
     * @param target probability of a failure, between 0 and 1
     * @param n cases, at least 1
     * @param level such as 0.95 or 0.998
     */
    public static Interval at(double target, int n, double level) {
        Check.rate("target", target);
        Check.rate("level", level);
        if (n < 1) {
            throw new IllegalArgumentException("n " + n);
        }
        BinomialDistribution failures = new BinomialDistribution(n, target);
        return new Interval(share(failures, n, (1 - level) / 2), share(failures, n, (1 + level) / 2), level);
    }

    private static double share(BinomialDistribution failures, int n, double p) {
        int r = failures.inverseCumulativeProbability(p);
        double over = (failures.cumulativeProbability(r) - p) / failures.probability(r);
        return Math.min(1, Math.max(0, (r - over) / n));
    }
}
