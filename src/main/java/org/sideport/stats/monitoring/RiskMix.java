package org.sideport.stats.monitoring;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The risks of the cases that a chart will meet, and how often each is met; cases are taken to come in random order.
 *
 * @param risks expected probabilities of failure, 0 to 1 exclusive
 * @param shares of the same length, above 0, sum 1
 */
public record RiskMix(List<Double> risks, List<Double> shares) {

    public RiskMix {
        risks = List.copyOf(risks);
        shares = List.copyOf(shares);
        if (risks.isEmpty() || risks.size() != shares.size()) {
            throw new IllegalArgumentException(risks.size() + " risks, " + shares.size() + " shares");
        }
        risks.forEach(risk -> Check.rate("risk", risk));
        shares.forEach(share -> Check.positive("share", share));
        if (Math.abs(shares.stream().mapToDouble(x -> x).sum() - 1) > 1e-9) {
            throw new IllegalArgumentException("the shares do not add up to 1");
        }
    }

    /** The mix that a series shows; each case counts the same. */
    public static RiskMix of(List<Double> observed) {
        Map<Double, Integer> counts = new TreeMap<>();
        observed.forEach(risk -> counts.merge(risk, 1, Integer::sum));
        return new RiskMix(
                List.copyOf(counts.keySet()),
                counts.values().stream()
                        .map(count -> count / (double) observed.size())
                        .toList());
    }

    /**
     * At most so many risks, for speed: neighbours are put together, each group about the same share of the cases, with
     * the mean risk of the group. The expected failure rate stays the same.
     *
     * @param groups 1 or more
     */
    public RiskMix grouped(int groups) {
        if (groups < 1) {
            throw new IllegalArgumentException(groups + " groups");
        }
        if (risks.size() <= groups) {
            return this;
        }
        double[] share = new double[groups];
        double[] sum = new double[groups];
        double before = 0;
        for (int i : java.util.stream.IntStream.range(0, risks.size())
                .boxed()
                .sorted(java.util.Comparator.comparing(risks::get))
                .toList()) {
            int group = (int) Math.min(groups - 1, Math.floor((before + shares.get(i) / 2) * groups));
            before += shares.get(i);
            share[group] += shares.get(i);
            sum[group] += shares.get(i) * risks.get(i);
        }
        List<Double> merged = new java.util.ArrayList<>();
        List<Double> weights = new java.util.ArrayList<>();
        for (int g = 0; g < groups; g++) {
            if (share[g] > 0) {
                merged.add(sum[g] / share[g]);
                weights.add(share[g]);
            }
        }
        return new RiskMix(merged, weights);
    }

    /** The expected failure rate. */
    public double meanRisk() {
        double sum = 0;
        for (int i = 0; i < risks.size(); i++) {
            sum += risks.get(i) * shares.get(i);
        }
        return sum;
    }
}
