package org.sideport.stats.monitoring;

import java.util.function.DoublePredicate;

/**
 * Limits of a risk-adjusted log-likelihood-ratio CUSUM, for cases whose risks come in random order from a mix. The values
 * of the statistic lie so dense that the limit is found by halving, up to 1e-3, on the grid of {@link BinaryRunLength}.
 */
public final class RiskMixLimits {

    private static final double STEP = 1e-3;
    private static final double HIGHEST = 64;

    private RiskMixLimits() {}

    /**
     * The smallest limit with an average run length of at least this if the risks are right.
     *
     * @param design its limit is of no account
     * @param wished average run length, above 1, at most 1e7
     */
    public static double forRunLength(LlrDesign design, RiskMix mix, double wished) {
        if (!(wished > 1 && wished <= 1e7)) {
            throw new IllegalArgumentException("an average run length of " + wished + " cannot be met");
        }
        return smallest(h -> RunLength.of(BinaryRunLength.chain(with(design, h), mix, 1), 1e-7)
                        .arl()
                >= wished);
    }

    /**
     * The smallest limit that is reached within n cases with at most this probability if the risks are right.
     *
     * @param design its limit is of no account
     * @param n number of cases, 1 to {@link LimitFinder#LONGEST_HORIZON}
     * @param alpha wished probability of a false signal within n cases, 0 to 1 exclusive
     */
    public static double forHorizon(LlrDesign design, RiskMix mix, int n, double alpha) {
        Check.rate("the false-signal probability", alpha);
        if (n < 1 || n > LimitFinder.LONGEST_HORIZON) {
            throw new IllegalArgumentException(
                    "a horizon of " + n + " cases; 1 to " + LimitFinder.LONGEST_HORIZON + " can be met");
        }
        return smallest(h -> {
            RunChain chain = BinaryRunLength.chain(with(design, h), mix, 1);
            double sum = 0;
            for (int i = 0; i < n; i++) {
                sum += chain.step();
            }
            return sum <= alpha;
        });
    }

    private static LlrDesign with(LlrDesign design, double limit) {
        return new LlrDesign(design.oddsMultiplier(), limit, design.p0());
    }

    private static double smallest(DoublePredicate holds) {
        double high = 0.5;
        while (!holds.test(high)) {
            high *= 2;
            if (high > HIGHEST) {
                throw new IllegalArgumentException("no limit up to " + HIGHEST + " meets the wish");
            }
        }
        long from = 0;
        long to = Math.round(high / STEP);
        while (to - from > 1) {
            long middle = (from + to) / 2;
            if (holds.test(middle * STEP)) {
                to = middle;
            } else {
                from = middle;
            }
        }
        return to * STEP;
    }
}
