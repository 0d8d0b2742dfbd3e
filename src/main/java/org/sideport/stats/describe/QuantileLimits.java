package org.sideport.stats.describe;

import java.util.Arrays;
import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Limits of a population quantile that hold for any continuous distribution: two order statistics with at most half of
 * the allowed error in either tail (David & Nagaraja 2003, Order Statistics, 3rd edition, section 7.1; Conover 1999,
 * Practical Nonparametric Statistics, section 3.2). Discrete values and ties make them wider than need be, not narrower.
 *
 * @param limits {@code −∞} or {@code +∞} where the sample is too small to bound that side
 * @param lowerRank rank of the order statistic, from 1; {@code null} where the side is not bounded
 * @param upperRank likewise
 * @param coverage the coverage that these ranks reach, at least the level asked for
 */
public record QuantileLimits(
        Interval limits,
        @Nullable Integer lowerRank,
        @Nullable Integer upperRank,
        double coverage) {

    /**
     * @param values finite, any order; not changed
     * @param p of the quantile, between 0 and 1
     * @param level for instance 0.95
     * @return refused if the sample bounds neither side
     * @throws IllegalArgumentException if {@code p} is not between 0 and 1
     */
    public static Outcome<QuantileLimits> of(double[] values, double p, double level) {
        if (!(p > 0 && p < 1)) {
            throw new IllegalArgumentException("a quantile with limits lies between 0 and 1, not at " + p);
        }
        int n = values.length;
        double tail = (1 - level) / 2;
        BinomialDistribution below = new BinomialDistribution(n, p);
        // the largest r with P(B ≤ r − 1) ≤ tail, and the smallest s with P(B ≥ s) ≤ tail
        int lower = 0;
        while (lower < n && below.cumulativeProbability(lower) <= tail) {
            lower++;
        }
        int upper = n + 1;
        while (upper > 1 && 1 - below.cumulativeProbability(upper - 2) <= tail) {
            upper--;
        }
        if (lower == 0 && upper == n + 1) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "with " + n + (n == 1 ? " value" : " values")
                            + " no limit of this quantile reaches the level asked for",
                    "collect more values, or ask for a lower level");
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        double coverage = below.cumulativeProbability(upper - 1) - below.cumulativeProbability(lower - 1);
        return Outcome.of(new QuantileLimits(
                new Interval(
                        lower == 0 ? Double.NEGATIVE_INFINITY : sorted[lower - 1],
                        upper == n + 1 ? Double.POSITIVE_INFINITY : sorted[upper - 1],
                        level),
                lower == 0 ? null : (Integer) lower,
                upper == n + 1 ? null : (Integer) upper,
                coverage));
    }
}
