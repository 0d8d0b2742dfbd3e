package org.sideport.stats.casemix;

import java.util.List;
import org.hipparchus.distribution.continuous.GammaDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;

/**
 * How many events there were, and how many the risks let expect.
 *
 * @param n cases
 * @param observed cases with the event
 * @param expected sum of the risks
 * @param sd of the number of events, were the risks right: {@code √Σ p (1 − p)}
 * @param atMost probability of so many events or fewer, were the risks right: exact, the cases independent with their
 *     own risks
 * @param atLeast of so many or more
 * @param ratio observed to expected; its limits take the observed number as Poisson (Garwood 1936, Biometrika 28:437),
 *     which is exact for small risks and too wide for large ones
 */
public record ExpectedEvents(
        int n, int observed, double expected, double sd, double atMost, double atLeast, Estimate ratio) {

    /**
     * @param risk between 0 and 1, at least one
     * @param outcome 0 or 1
     */
    public static ExpectedEvents of(double[] risk, double[] outcome, double level) {
        checkRisks(risk, outcome);
        int observed = CaseOutcomes.events(outcome);
        double expected = 0;
        double variance = 0;
        // chance of 0 … observed events after the cases so far
        double[] chance = new double[observed + 1];
        chance[0] = 1;
        for (double p : risk) {
            expected += p;
            variance += p * (1 - p);
            for (int k = observed; k >= 0; k--) {
                chance[k] = chance[k] * (1 - p) + (k > 0 ? chance[k - 1] * p : 0);
            }
        }
        double below = 0;
        for (int k = 0; k < observed; k++) {
            below += chance[k];
        }
        return new ExpectedEvents(
                risk.length,
                observed,
                expected,
                Math.sqrt(variance),
                Math.min(below + chance[observed], 1),
                Math.max(1 - below, 0),
                ratio(risk.length, observed, expected, level));
    }

    static void checkRisks(double[] risk, double[] outcome) {
        CaseOutcomes.check(outcome);
        if (risk.length != outcome.length || risk.length == 0) {
            throw new IllegalArgumentException(risk.length + " risks for " + outcome.length + " outcomes");
        }
        for (double p : risk) {
            if (!(p > 0 && p < 1)) {
                throw new IllegalArgumentException("a risk lies between 0 and 1, not at " + p);
            }
        }
    }

    private static Estimate ratio(int n, int observed, double expected, double level) {
        double tail = (1 - level) / 2;
        double lower = observed == 0 ? 0 : quantile(observed, tail);
        double upper = quantile(observed + 1, 1 - tail);
        @Nullable Double se = observed == 0 ? null : (Double) (Math.sqrt(observed) / expected);
        return new Estimate(
                observed / expected,
                se,
                new Interval(lower / expected, upper / expected, level),
                n,
                "observed / expected, exact Poisson limits",
                expected < 5
                        ? List.of(String.format(
                                java.util.Locale.ROOT,
                                "Only %.1f events are expected among %d cases: the ratio says little yet.",
                                expected,
                                n))
                        : List.of());
    }

    private static double quantile(double shape, double p) {
        return new GammaDistribution(shape, 1, 1e-13).inverseCumulativeProbability(p);
    }
}
