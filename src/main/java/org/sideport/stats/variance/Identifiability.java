package org.sideport.stats.variance;

import java.util.Arrays;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;

/**
 * Quadratic forms of the centred values: the matrices M Z_k Z_k' M and M (M takes the mean off) must be linearly
 * independent, or no method can tell the components apart (Rao & Kleffe 1988, Estimation of Variance Components and
 * Applications, section 4.2). Their Gram matrix also gives the MINQUE(0) estimates (Rao 1971, Journal of Multivariate
 * Analysis 1:257), from which the search sets out.
 */
final class Identifiability {

    /** Of the smallest eigenvalue of the Gram matrix with unit diagonal. */
    private static final double RANK = 1e-9;

    private final double[][] gram;
    private final double[] squares;
    private final int size;

    Identifiability(CrossProducts data) {
        size = data.factors + 1;
        int n = data.n;
        gram = new double[size][size];
        squares = new double[size];
        double[][] crossed = new double[size][size];
        double[][] products = new double[size][size];
        double[] ones = new double[size];
        int[] block = new int[data.columns()];
        for (int k = 0; k < data.factors; k++) {
            Arrays.fill(block, data.start[k], data.start[k + 1], k);
        }
        for (int j = 0; j < data.columns(); j++) {
            ones[block[j]] += data.z1[j] * data.z1[j];
            squares[block[j]] += data.zy[j] * data.zy[j];
            for (int p = data.columnStart[j]; p < data.columnStart[j + 1]; p++) {
                int i = data.rows[p];
                crossed[block[i]][block[j]] += data.counts[p] * data.counts[p];
                products[block[i]][block[j]] += data.counts[p] * data.z1[i] * data.z1[j];
            }
        }
        squares[size - 1] = data.yy;
        for (int k = 0; k < size; k++) {
            for (int m = k; m < size; m++) {
                double value;
                if (k == size - 1) {
                    value = n - 1;
                } else if (m == size - 1) {
                    value = n - ones[k] / n;
                } else {
                    value = crossed[k][m] - 2 * products[k][m] / n + ones[k] * ones[m] / n / n;
                }
                gram[k][m] = value;
                gram[m][k] = value;
            }
        }
    }

    /**
     * Which components cannot be told apart (factors by number, the residual last), or {@code null} if all can.
     */
    int @Nullable [] confounded() {
        RealMatrix unit = new Array2DRowRealMatrix(size, size);
        for (int k = 0; k < size; k++) {
            for (int m = 0; m < size; m++) {
                double scale = Math.sqrt(gram[k][k] * gram[m][m]);
                unit.setEntry(k, m, scale > 0 ? gram[k][m] / scale : 0);
            }
        }
        EigenDecompositionSymmetric eigen = new EigenDecompositionSymmetric(unit);
        double[] values = eigen.getEigenvalues();
        int least = 0;
        for (int k = 1; k < size; k++) {
            least = values[k] < values[least] ? k : least;
        }
        if (values[least] > RANK) {
            return null;
        }
        double[] vector = eigen.getEigenvector(least).toArray();
        return java.util.stream.IntStream.range(0, size)
                .filter(k -> Math.abs(vector[k]) > 1e-3)
                .toArray();
    }

    /** MINQUE(0) components, the residual last; may be negative. Only if nothing is confounded. */
    double[] minque() {
        return new LUDecomposition(new Array2DRowRealMatrix(gram))
                .getSolver()
                .solve(new ArrayRealVector(squares))
                .toArray();
    }
}
