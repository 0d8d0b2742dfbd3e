package org.sideport.media.trace;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Changes of the mean of one or more series at once, by the exact search PELT (R. Killick, P. Fearnhead, I. A. Eckley,
 * Optimal detection of changepoints with a linear computational cost, Journal of the American Statistical Association
 * 107 (2012) 1590–1598). The cost of a stretch is the sum of squares around its own means; what is added for each change
 * is the penalty.
 */
public final class ChangePoints {

    private final int dimensions;
    private final int n;
    private final double[][] sums;
    private final double[] squares;

    private ChangePoints(double[][] series) {
        dimensions = series.length;
        n = series[0].length;
        sums = new double[dimensions][n + 1];
        squares = new double[n + 1];
        for (double[] one : series) {
            if (one.length != n) {
                throw new IllegalArgumentException("series differ in length: " + one.length + " and " + n);
            }
        }
        for (int i = 0; i < n; i++) {
            squares[i + 1] = squares[i];
            for (int d = 0; d < dimensions; d++) {
                double value = series[d][i];
                if (!Double.isFinite(value)) {
                    throw new IllegalArgumentException("value " + i + " of series " + d + " is no number");
                }
                sums[d][i + 1] = sums[d][i] + value;
                squares[i + 1] += value * value;
            }
        }
    }

    /**
     * The changes that make the sum of all stretches' costs and {@code penalty} for each change least.
     *
     * @param series one or more of the same length, each in units of its own noise
     * @param penalty of a change, not negative
     * @param least fewest values from one change to the next, at least 1
     * @return index of the first value after each change, ascending
     */
    public static List<Integer> find(double[][] series, double penalty, int least) {
        if (series.length == 0 || !(penalty >= 0) || least < 1) {
            throw new IllegalArgumentException("series, a penalty of 0 or more and a least length of 1 are needed");
        }
        return new ChangePoints(series).search(penalty, least);
    }

    /** Sum of squares around the means of values {@code from} (inclusive) to {@code to} (exclusive). */
    private double cost(int from, int to) {
        double cost = squares[to] - squares[from];
        for (int d = 0; d < dimensions; d++) {
            double sum = sums[d][to] - sums[d][from];
            cost -= sum * sum / (to - from);
        }
        return Math.max(0, cost);
    }

    private List<Integer> search(double penalty, int least) {
        double[] best = new double[n + 1];
        int[] previous = new int[n + 1];
        best[0] = -penalty;
        for (int i = 1; i <= n; i++) {
            best[i] = Double.POSITIVE_INFINITY;
        }
        List<Integer> candidates = new ArrayList<>(List.of(0));
        for (int end = least; end <= n; end++) {
            // a start enters when the stretch from it can be long enough
            int entering = end - least;
            if (entering >= least) {
                candidates.add(entering);
            }
            for (int start : candidates) {
                double total = best[start] + cost(start, end) + penalty;
                if (total < best[end]) {
                    best[end] = total;
                    previous[end] = start;
                }
            }
            prune(candidates, best, end, least);
        }
        List<Integer> changes = new ArrayList<>();
        for (int at = n < least ? 0 : previous[n]; at > 0; at = previous[at]) {
            changes.add(at);
        }
        Collections.reverse(changes);
        return changes;
    }

    /**
     * Killick et al., theorem 3.1: a start {@code s} with {@code F(s) + C(s, t) > F(t)} is never again the best last
     * change, as {@code t} is better, for every end at least {@code least} values after {@code t}.
     */
    private void prune(List<Integer> candidates, double[] best, int end, int least) {
        int settled = end + 1 - least;
        if (settled >= least) {
            candidates.removeIf(start -> start < settled && best[start] + cost(start, settled) > best[settled]);
        }
    }
}
