package org.sideport.stats.variance;

import edu.emory.mathcs.csparsej.tdouble.Dcs_amd;
import edu.emory.mathcs.csparsej.tdouble.Dcs_common.Dcs;
import java.util.Arrays;

/**
 * Cholesky factor L L' of P (S C S + I) P' for a fixed sparse symmetric C and changing positive diagonal S. The order P
 * (approximate minimum degree, Amestoy, Davis & Duff 1996) and the pattern of L are found once; each {@link #factor}
 * fills in numbers, column by column, left-looking (Davis 2006, Direct Methods for Sparse Linear Systems, chapter 4).
 */
final class SparseCholesky {

    /** Half a gigabyte of entries; a design that fills more is not computed. */
    static final long MOST_ENTRIES = 40_000_000L;

    private final int n;
    /** {@code order[i]}: which column of C stands at place i. */
    private final int[] order;

    private final int[] cStart;
    private final int[] cRows;
    private final double[] cValues;
    private final int[] lStart;
    private final int[] lRows;
    private final double[] l;
    private final double[] work;
    private final int[] head;
    private final int[] next;
    private final int[] at;

    /** @param columnStart, rows, values the upper triangle of C by columns, row numbers ascending */
    SparseCholesky(int n, int[] columnStart, int[] rows, double[] values) {
        this.n = n;
        order = minimumDegree(n, columnStart, rows, values);
        int[] place = new int[n];
        for (int i = 0; i < n; i++) {
            place[order[i]] = i;
        }
        // upper[j]: the entries (i, j), i <= j, of P C P'; its transpose is the lower triangle by columns.
        int[] upperStart = new int[n + 1];
        cStart = new int[n + 1];
        for (int j = 0; j < n; j++) {
            for (int p = columnStart[j]; p < columnStart[j + 1]; p++) {
                upperStart[Math.max(place[rows[p]], place[j]) + 1]++;
                cStart[Math.min(place[rows[p]], place[j]) + 1]++;
            }
        }
        for (int j = 0; j < n; j++) {
            upperStart[j + 1] += upperStart[j];
            cStart[j + 1] += cStart[j];
        }
        int[] upperRows = new int[upperStart[n]];
        cRows = new int[cStart[n]];
        cValues = new double[cStart[n]];
        int[] upperNext = Arrays.copyOf(upperStart, n);
        int[] lowerNext = Arrays.copyOf(cStart, n);
        for (int j = 0; j < n; j++) {
            for (int p = columnStart[j]; p < columnStart[j + 1]; p++) {
                int high = Math.max(place[rows[p]], place[j]);
                int low = Math.min(place[rows[p]], place[j]);
                upperRows[upperNext[high]++] = low;
                cRows[lowerNext[low]] = high;
                cValues[lowerNext[low]++] = values[p];
            }
        }
        Pattern pattern = new Pattern(n, upperStart, upperRows);
        lStart = pattern.start;
        lRows = pattern.rows;
        l = new double[lRows.length];
        work = new double[n];
        head = new int[n];
        next = new int[n];
        at = new int[n];
    }

    private static int[] minimumDegree(int n, int[] columnStart, int[] rows, double[] values) {
        Dcs matrix = new Dcs();
        matrix.m = n;
        matrix.n = n;
        matrix.nzmax = rows.length;
        matrix.nz = -1;
        matrix.p = columnStart;
        matrix.i = rows;
        matrix.x = values;
        return Arrays.copyOf(Dcs_amd.cs_amd(1, matrix), n);
    }

    int entries() {
        return lRows.length;
    }

    /** @param scale the diagonal of S, in the order of C's columns */
    void factor(double[] scale) {
        Arrays.fill(head, -1);
        for (int j = 0; j < n; j++) {
            double sj = scale[order[j]];
            for (int p = cStart[j]; p < cStart[j + 1]; p++) {
                work[cRows[p]] = cValues[p] * sj * scale[order[cRows[p]]];
            }
            work[j] += 1;
            for (int k = head[j]; k >= 0; ) {
                int following = next[k];
                int p = at[k];
                double ljk = l[p];
                int end = lStart[k + 1];
                for (int q = p; q < end; q++) {
                    work[lRows[q]] -= ljk * l[q];
                }
                link(k, p + 1);
                k = following;
            }
            // S C S + I has no eigenvalue below 1, so the pivot is positive whatever the rounding.
            double pivot = Math.sqrt(Math.max(work[j], Double.MIN_NORMAL));
            for (int p = lStart[j]; p < lStart[j + 1]; p++) {
                l[p] = work[lRows[p]] / pivot;
                work[lRows[p]] = 0;
            }
            l[lStart[j]] = pivot;
            link(j, lStart[j] + 1);
        }
    }

    /** Column k waits for the row of its next entry. */
    private void link(int k, int p) {
        if (p < lStart[k + 1]) {
            at[k] = p;
            next[k] = head[lRows[p]];
            head[lRows[p]] = k;
        }
    }

    double logDeterminant() {
        double sum = 0;
        for (int j = 0; j < n; j++) {
            sum += Math.log(l[lStart[j]]);
        }
        return 2 * sum;
    }

    /** L⁻¹ P b, in L's order. */
    double[] forward(double[] b) {
        double[] x = new double[n];
        for (int j = 0; j < n; j++) {
            x[j] = b[order[j]];
        }
        for (int j = 0; j < n; j++) {
            double xj = x[j] / l[lStart[j]];
            x[j] = xj;
            for (int p = lStart[j] + 1; p < lStart[j + 1]; p++) {
                x[lRows[p]] -= l[p] * xj;
            }
        }
        return x;
    }

    /** P' L'⁻¹ x, back in C's order; {@code x} is used up. */
    double[] backward(double[] x) {
        for (int j = n - 1; j >= 0; j--) {
            double sum = x[j];
            for (int p = lStart[j] + 1; p < lStart[j + 1]; p++) {
                sum -= l[p] * x[lRows[p]];
            }
            x[j] = sum / l[lStart[j]];
        }
        double[] result = new double[n];
        for (int j = 0; j < n; j++) {
            result[order[j]] = x[j];
        }
        return result;
    }

    double[] solve(double[] b) {
        return backward(forward(b));
    }

    /**
     * The diagonal of the inverse, by the recursion of Takahashi, Fagan & Chen (1973) on the pattern of L, in C's order.
     */
    double[] inverseDiagonal() {
        double[] inverse = new double[l.length];
        double[] unit = new double[n];
        double[] sum = new double[n];
        int[] mark = new int[n];
        Arrays.fill(mark, -1);
        double[] diagonal = new double[n];
        for (int j = n - 1; j >= 0; j--) {
            int from = lStart[j] + 1;
            int to = lStart[j + 1];
            double pivot = l[from - 1];
            for (int p = from; p < to; p++) {
                int row = lRows[p];
                mark[row] = j;
                unit[row] = l[p] / pivot;
                sum[row] = 0;
            }
            for (int p = from; p < to; p++) {
                int k = lRows[p];
                double uk = unit[k];
                double sk = uk * inverse[lStart[k]];
                for (int r = lStart[k] + 1; r < lStart[k + 1]; r++) {
                    int i = lRows[r];
                    if (mark[i] == j) {
                        sum[i] += uk * inverse[r];
                        sk += unit[i] * inverse[r];
                    }
                }
                sum[k] += sk;
            }
            double own = 1 / (pivot * pivot);
            for (int p = from; p < to; p++) {
                inverse[p] = -sum[lRows[p]];
                own += unit[lRows[p]] * sum[lRows[p]];
            }
            inverse[from - 1] = own;
            diagonal[order[j]] = own;
        }
        return diagonal;
    }

    /** Where L has entries: the elimination tree and the rows reached in it (Davis 2006, sections 4.1 and 4.2). */
    private static final class Pattern {
        final int[] start;
        final int[] rows;

        Pattern(int n, int[] upperStart, int[] upperRows) {
            int[] parent = new int[n];
            int[] mark = new int[n];
            long[] size = new long[n];
            Arrays.fill(parent, -1);
            for (int j = 0; j < n; j++) {
                mark[j] = j;
                size[j]++;
                for (int p = upperStart[j]; p < upperStart[j + 1]; p++) {
                    for (int i = upperRows[p]; mark[i] != j; i = parent[i]) {
                        if (parent[i] < 0) {
                            parent[i] = j;
                        }
                        size[i]++;
                        mark[i] = j;
                    }
                }
            }
            long total = Arrays.stream(size).sum();
            if (total > MOST_ENTRIES) {
                throw new TooLargeException(total);
            }
            start = new int[n + 1];
            for (int j = 0; j < n; j++) {
                start[j + 1] = start[j] + (int) size[j];
            }
            rows = new int[(int) total];
            int[] next = Arrays.copyOf(start, n);
            Arrays.fill(mark, -1);
            for (int j = 0; j < n; j++) {
                mark[j] = j;
                rows[next[j]++] = j;
                for (int p = upperStart[j]; p < upperStart[j + 1]; p++) {
                    for (int i = upperRows[p]; mark[i] != j; i = parent[i]) {
                        rows[next[i]++] = j;
                        mark[i] = j;
                    }
                }
            }
        }
    }

    /** The factor would not fit in memory. */
    static final class TooLargeException extends RuntimeException {
        private static final long serialVersionUID = 1L;

        TooLargeException(long entries) {
            super(entries + " entries");
        }
    }
}
