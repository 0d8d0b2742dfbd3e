package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.distribution.continuous.NormalDistribution;

/** An individuals chart of normal values with run rules: an exact Markov chain (Champ & Woodall 1987, Technometrics 29:393). */
final class RulesChain implements RunChain {

    private static final NormalDistribution NORMAL = new NormalDistribution();

    private final double[] zones;
    private final int[][] next;
    private double[] mass;

    /** @param shift of the mean, in SD */
    RulesChain(Set<RunRule> rules, double shift) {
        zones = new double[8];
        for (int depth = 0; depth < 4; depth++) {
            double outer = depth == 3 ? Double.POSITIVE_INFINITY : depth + 1;
            // Differences of upper tails, which keep their digits far out.
            zones[4 + depth] = tail(depth - shift) - tail(outer - shift);
            zones[3 - depth] = tail(depth + shift) - tail(outer + shift);
        }
        Map<RunState, Integer> known = new LinkedHashMap<>(Map.of(RunState.START, 0));
        List<RunState> states = new ArrayList<>(List.of(RunState.START));
        List<int[]> rows = new ArrayList<>();
        for (int s = 0; s < states.size(); s++) {
            int[] row = new int[zones.length];
            for (int z = 0; z < row.length; z++) {
                RunState.Step step = states.get(s).add(z - 4, rules);
                RunState reached = step.next().reduced(rules);
                if (step.rule().isPresent()) {
                    row[z] = -1;
                } else {
                    row[z] = known.computeIfAbsent(reached, state -> states.size());
                    if (row[z] == states.size()) {
                        states.add(reached);
                    }
                }
            }
            rows.add(row);
        }
        next = rows.toArray(int[][]::new);
        mass = new double[next.length];
        mass[0] = 1;
    }

    private static double tail(double z) {
        return NORMAL.cumulativeProbability(-z);
    }

    @Override
    public double step() {
        double[] after = new double[mass.length];
        double signal = 0;
        for (int s = 0; s < mass.length; s++) {
            for (int z = 0; z < zones.length && mass[s] > 0; z++) {
                int to = next[s][z];
                if (to < 0) {
                    signal += mass[s] * zones[z];
                } else {
                    after[to] += mass[s] * zones[z];
                }
            }
        }
        mass = after;
        return signal;
    }

    @Override
    public double alive() {
        return Arrays.stream(mass).sum();
    }

    @Override
    public String method() {
        return "exact Markov chain of " + mass.length + " states";
    }
}
