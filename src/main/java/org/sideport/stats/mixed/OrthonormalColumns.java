package org.sideport.stats.mixed;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Thin QR decomposition of a tall matrix, by Gram–Schmidt done twice (Björck 1996, Numerical Methods for Least Squares
 * Problems, section 2.4), in memory linear in the rows. Hipparchus's decomposition keeps a square matrix of the rows.
 *
 * @param q orthonormal columns
 * @param r upper triangular, positive diagonal; the columns that came in are {@code q r}
 */
@SuppressWarnings("ArrayRecordComponent")
record OrthonormalColumns(double[][] q, double[][] r) {

    /** Below this share of its length left over, a column counts as made of those before it. */
    private static final double DEPENDENT = 1e-9;

    /** Why there is no decomposition: a column and those before it that make it up; empty for a column of zeros. */
    record Dependence(String column, List<String> on) {}

    /** The first column that those before it make up, or {@code null} if there is none. */
    static @Nullable Dependence dependence(List<Column> columns) {
        int p = columns.size();
        double[][] q = new double[p][];
        double[][] r = new double[p][p];
        for (int j = 0; j < p; j++) {
            double[] column = columns.get(j).values();
            double before = length(column);
            q[j] = project(column, q, r, j);
            if (!(r[j][j] > DEPENDENT * before)) {
                List<String> on = new ArrayList<>();
                double[] weights = backSolve(r, j);
                for (int k = 0; k < j; k++) {
                    if (Math.abs(weights[k]) * length(columns.get(k).values()) > 1e-6 * before) {
                        on.add(columns.get(k).name());
                    }
                }
                return new Dependence(columns.get(j).name(), on);
            }
        }
        return null;
    }

    /** @param columns linearly independent, see {@link #dependence} */
    static OrthonormalColumns of(List<Column> columns) {
        int p = columns.size();
        double[][] q = new double[p][];
        double[][] r = new double[p][p];
        for (int j = 0; j < p; j++) {
            q[j] = project(columns.get(j).values(), q, r, j);
        }
        return new OrthonormalColumns(q, r);
    }

    /** What is left of a column without its part along the first {@code j} of q, of length one; writes column j of r. */
    private static double[] project(double[] column, double[][] q, double[][] r, int j) {
        double[] left = column.clone();
        for (int pass = 0; pass < 2; pass++) {
            for (int k = 0; k < j; k++) {
                double along = dot(q[k], left);
                r[k][j] += along;
                for (int i = 0; i < left.length; i++) {
                    left[i] -= along * q[k][i];
                }
            }
        }
        r[j][j] = length(left);
        if (r[j][j] > 0) {
            for (int i = 0; i < left.length; i++) {
                left[i] /= r[j][j];
            }
        }
        return left;
    }

    /** Weights of the first {@code j} columns that add up to column {@code j}. */
    private static double[] backSolve(double[][] r, int j) {
        double[] w = new double[j];
        for (int k = j - 1; k >= 0; k--) {
            double sum = r[k][j];
            for (int m = k + 1; m < j; m++) {
                sum -= r[k][m] * w[m];
            }
            w[k] = sum / r[k][k];
        }
        return w;
    }

    static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    static double length(double[] a) {
        return Math.sqrt(dot(a, a));
    }
}
