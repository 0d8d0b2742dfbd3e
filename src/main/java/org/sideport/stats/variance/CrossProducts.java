package org.sideport.stats.variance;

import java.util.Arrays;
import java.util.List;
import org.sideport.stats.data.Factor;

/**
 * What REML needs of the data: Z'Z (sparse), Z'y and Z'1, where Z holds the indicator columns of all random factors side
 * by side. The values are centred first, which changes no component and keeps digits. Memory grows with the number of
 * pairs of levels that occur together, at most n k (k + 1) / 2 for n observations and k factors.
 */
final class CrossProducts {

    final int n;
    final int factors;
    /** Where each factor's columns start; one more entry for the end. */
    final int[] start;
    /** Upper triangle of Z'Z by columns, the diagonal included. */
    final int[] columnStart;

    final int[] rows;
    final double[] counts;
    final double[] zy;
    final double[] z1;
    final double mean;
    final double yy;

    CrossProducts(double[] values, List<Factor> random) {
        n = values.length;
        factors = random.size();
        start = new int[factors + 1];
        for (int k = 0; k < factors; k++) {
            start[k + 1] = start[k] + random.get(k).size();
        }
        double rough = Arrays.stream(values).sum() / n;
        mean = rough + Arrays.stream(values).map(v -> v - rough).sum() / n;
        int q = start[factors];
        zy = new double[q];
        z1 = new double[q];
        double squares = 0;
        for (int i = 0; i < n; i++) {
            double y = values[i] - mean;
            squares += y * y;
            for (int k = 0; k < factors; k++) {
                int column = start[k] + random.get(k).codes()[i];
                zy[column] += y;
                z1[column]++;
            }
        }
        yy = squares;
        Builder builder = new Builder(q);
        for (int k = 0; k < factors; k++) {
            builder.block(random, k);
        }
        columnStart = builder.columnStart;
        rows = Arrays.copyOf(builder.rows, builder.filled);
        counts = Arrays.copyOf(builder.counts, builder.filled);
    }

    int columns() {
        return start[factors];
    }

    int levels(int factor) {
        return start[factor + 1] - start[factor];
    }

    /** Z'Z times a vector that is zero outside the columns of one factor. */
    double[] timesBlock(int factor, double[] vector) {
        double[] product = new double[columns()];
        int from = start[factor];
        int to = start[factor + 1];
        for (int j = from; j < columns(); j++) {
            boolean inside = j < to;
            for (int p = columnStart[j]; p < columnStart[j + 1]; p++) {
                int i = rows[p];
                if (inside) {
                    product[i] += counts[p] * vector[j];
                }
                if (i != j && i >= from && i < to) {
                    product[j] += counts[p] * vector[i];
                }
            }
        }
        return product;
    }

    private final class Builder {
        private final int[] columnStart;
        private int[] rows;
        private double[] counts;
        private int filled;
        private final double[] sum;
        private final int[] seen;

        Builder(int q) {
            columnStart = new int[q + 1];
            rows = new int[Math.max(16, 2 * q)];
            counts = new double[rows.length];
            sum = new double[q];
            seen = new int[q];
            Arrays.fill(seen, -1);
        }

        void block(List<Factor> random, int k) {
            int[] order = grouped(random.get(k));
            int[] codes = random.get(k).codes();
            int at = 0;
            for (int level = 0; level < levels(k); level++) {
                int column = start[k] + level;
                int first = filled;
                for (; at < order.length && codes[order[at]] == level; at++) {
                    for (int m = 0; m <= k; m++) {
                        add(start[m] + random.get(m).codes()[order[at]], column);
                    }
                }
                Arrays.sort(rows, first, filled);
                for (int p = first; p < filled; p++) {
                    counts[p] = sum[rows[p]];
                    sum[rows[p]] = 0;
                }
                columnStart[column + 1] = filled;
            }
        }

        private void add(int row, int column) {
            if (seen[row] != column) {
                seen[row] = column;
                if (filled == rows.length) {
                    rows = Arrays.copyOf(rows, filled + (filled >> 1));
                    counts = Arrays.copyOf(counts, rows.length);
                }
                rows[filled++] = row;
            }
            sum[row]++;
        }

        /** The observations ordered by level, by counting. */
        private int[] grouped(Factor factor) {
            int[] next = new int[factor.size() + 1];
            for (int code : factor.codes()) {
                next[code + 1]++;
            }
            for (int level = 0; level < factor.size(); level++) {
                next[level + 1] += next[level];
            }
            int[] order = new int[n];
            for (int i = 0; i < n; i++) {
                order[next[factor.codes()[i]]++] = i;
            }
            return order;
        }
    }
}
