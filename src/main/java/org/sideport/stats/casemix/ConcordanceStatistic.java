package org.sideport.stats.casemix;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * The c-statistic, the area under the receiver operating characteristic: the share of pairs of a case with and a case
 * without the event in which the former has the higher risk, ties half. 0.5 is chance, 1 perfect order.
 */
public final class ConcordanceStatistic {

    private ConcordanceStatistic() {}

    /**
     * Standard error and limits by DeLong, DeLong & Clarke-Pearson 1988, Biometrics 44:837, from mid-ranks (Sun & Xu 2014,
     * IEEE Signal Processing Letters 21:1389); the limits are cut at 0 and 1. {@code n} counts cases.
     *
     * @param risk of each case; only the order counts
     * @param outcome 0 or 1
     * @return refused if one of the two outcomes does not occur; without limits if one occurs only once
     */
    public static Outcome<Estimate> of(double[] risk, double[] outcome, double level) {
        CaseOutcomes.check(outcome);
        int events = CaseOutcomes.events(outcome);
        int others = outcome.length - events;
        if (events == 0 || others == 0) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "all of the " + outcome.length + " cases had the same outcome",
                    "collect cases until both outcomes occur");
        }
        double[] all = midRanks(risk);
        double[] within = new double[risk.length];
        for (double value : new double[] {0, 1}) {
            int[] group = IntStream.range(0, risk.length)
                    .filter(i -> outcome[i] == value)
                    .toArray();
            double[] ranks =
                    midRanks(Arrays.stream(group).mapToDouble(i -> risk[i]).toArray());
            for (int g = 0; g < group.length; g++) {
                within[group[g]] = ranks[g];
            }
        }
        // placement: the share of the other group that the case outranks
        double[] placement = new double[risk.length];
        double c = 0;
        for (int i = 0; i < risk.length; i++) {
            boolean event = outcome[i] == 1;
            placement[i] = (all[i] - within[i]) / (event ? others : events);
            c += event ? placement[i] / events : 0;
        }
        @Nullable Double se = null;
        @Nullable Interval limits = null;
        if (events > 1 && others > 1) {
            double variance = 0;
            for (int i = 0; i < risk.length; i++) {
                boolean event = outcome[i] == 1;
                double m = event ? events : others;
                double d = placement[i] - (event ? c : 1 - c);
                variance += d * d / (m - 1) / m;
            }
            se = Math.sqrt(variance);
            double half = new NormalDistribution().inverseCumulativeProbability(0.5 + level / 2) * se;
            limits = new Interval(Math.max(c - half, 0), Math.min(c + half, 1), level);
        }
        List<String> warnings = Math.min(events, others) < 10
                ? List.of("Only " + Math.min(events, others)
                        + " cases had the rarer outcome: the c-statistic is hardly known.")
                : List.of();
        return Outcome.of(new Estimate(
                c, se, limits, risk.length, "c-statistic, limits by DeLong, DeLong & Clarke-Pearson", warnings));
    }

    /** From 1; equal values share the mean of their ranks. */
    private static double[] midRanks(double[] values) {
        int[] order = IntStream.range(0, values.length)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> values[i]))
                .mapToInt(Integer::intValue)
                .toArray();
        double[] ranks = new double[values.length];
        for (int from = 0; from < order.length; ) {
            int to = from;
            while (to < order.length && values[order[to]] == values[order[from]]) {
                to++;
            }
            for (int i = from; i < to; i++) {
                ranks[order[i]] = (from + 1 + to) / 2.0;
            }
            from = to;
        }
        return ranks;
    }
}
