package org.sideport.stats.mixed;

import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.hipparchus.linear.MatrixUtils;

/**
 * Products of the few-by-few matrices that each subject needs at each step. A matrix is
 * {@code double[rows][columns]}; nothing here is large.
 */
final class Small {

    private Small() {}

    static double[][] multiply(double[][] a, double[][] b) {
        double[][] c = new double[a.length][b[0].length];
        for (int i = 0; i < a.length; i++) {
            for (int k = 0; k < b.length; k++) {
                for (int j = 0; j < c[i].length; j++) {
                    c[i][j] += a[i][k] * b[k][j];
                }
            }
        }
        return c;
    }

    static double[] multiply(double[][] a, double[] x) {
        double[] y = new double[a.length];
        for (int i = 0; i < a.length; i++) {
            y[i] = OrthonormalColumns.dot(a[i], x);
        }
        return y;
    }

    static double[][] transpose(double[][] a) {
        double[][] t = new double[a[0].length][a.length];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < t.length; j++) {
                t[j][i] = a[i][j];
            }
        }
        return t;
    }

    static double[][] identity(int size) {
        double[][] one = new double[size][size];
        for (int i = 0; i < size; i++) {
            one[i][i] = 1;
        }
        return one;
    }

    /** Eigenvalues, the largest first, and eigenvectors of a matrix that is symmetric but for rounding. */
    static EigenDecompositionSymmetric eigen(double[][] a) {
        double[][] even = new double[a.length][a.length];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < a.length; j++) {
                even[i][j] = (a[i][j] + a[j][i]) / 2;
            }
        }
        return new EigenDecompositionSymmetric(MatrixUtils.createRealMatrix(even));
    }

    /** {@code x' A y}. */
    static double form(double[] x, double[][] a, double[] y) {
        return OrthonormalColumns.dot(x, multiply(a, y));
    }

    /**
     * Replaces the lower triangle of a positive definite matrix by its Cholesky factor.
     *
     * @return log of the determinant; NaN if the matrix is not positive definite
     */
    static double cholesky(double[][] a) {
        double log = 0;
        for (int j = 0; j < a.length; j++) {
            for (int i = j; i < a.length; i++) {
                double sum = a[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= a[i][k] * a[j][k];
                }
                if (i == j) {
                    if (!(sum > 0)) {
                        return Double.NaN;
                    }
                    a[j][j] = Math.sqrt(sum);
                    log += Math.log(sum);
                } else {
                    a[i][j] = sum / a[j][j];
                }
            }
        }
        return log;
    }

    /** Solves {@code L x = b} in place, L the lower triangle of {@code l}. */
    static void forward(double[][] l, double[] b) {
        for (int i = 0; i < b.length; i++) {
            for (int k = 0; k < i; k++) {
                b[i] -= l[i][k] * b[k];
            }
            b[i] /= l[i][i];
        }
    }

    /** Inverse of an upper triangular matrix with a positive diagonal. */
    static double[][] inverseUpper(double[][] r) {
        int p = r.length;
        double[][] inverse = new double[p][p];
        for (int j = 0; j < p; j++) {
            inverse[j][j] = 1 / r[j][j];
            for (int i = j - 1; i >= 0; i--) {
                double sum = 0;
                for (int k = i + 1; k <= j; k++) {
                    sum -= r[i][k] * inverse[k][j];
                }
                inverse[i][j] = sum / r[i][i];
            }
        }
        return inverse;
    }

    /** Inverse of a positive definite matrix from the Cholesky factor in the lower triangle of {@code l}. */
    static double[][] inverseFromCholesky(double[][] l) {
        double[][] upper = inverseUpper(transpose(l));
        return multiply(upper, transpose(upper));
    }
}
