package org.sideport.stats.monitoring;

import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.sideport.stats.Interval;

/**
 * Where chance alone puts the share of failures among so many cases if all have one rate: exact binomial limits, drawn
 * through between the steps (Spiegelhalter 2005, Statistics in Medicine 24:1185, appendix A.1.1, from memory).
 */
public final class FunnelLimits {

    private FunnelLimits() {}

    /**
     * @param rate common to all, 0 to 1
     * @param n cases, at least 1
     * @param level share that lies between the limits, such as 0.95
     * @throws IllegalArgumentException if a number does not fit
     */
    public static Interval of(double rate, int n, double level) {
        if (!(rate >= 0 && rate <= 1) || n < 1 || !(level > 0 && level < 1)) {
            throw new IllegalArgumentException(rate + ", " + n + ", " + level);
        }
        BinomialDistribution failures = new BinomialDistribution(n, rate);
        return new Interval(limit(failures, (1 - level) / 2), limit(failures, (1 + level) / 2), level);
    }

    private static double limit(BinomialDistribution failures, double p) {
        int n = failures.getNumberOfTrials();
        int r = failures.inverseCumulativeProbability(p);
        double reached = failures.cumulativeProbability(r);
        double step = failures.probability(r);
        double back = step > 0 ? (reached - p) / step : 0;
        return Math.min(1, Math.max(0, (r - back) / n));
    }
}
