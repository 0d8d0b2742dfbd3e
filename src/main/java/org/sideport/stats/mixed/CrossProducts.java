package org.sideport.stats.mixed;

/**
 * All that the profiled deviance needs of the data: for each subject the crossproducts of the random columns, the fixed
 * columns and the response. Made once; every evaluation then costs a few operations for each subject, however many
 * observations there are.
 *
 * <p>The columns are made orthonormal first ({@code X = Q R}, {@code Z = Zo T}), and the response is replaced by what
 * least squares leaves of it, so that a far-off origin or an awkward unit of time costs no digits. The model is the same:
 * a full covariance matrix of {@code b} turns into a full one of {@code T b}.
 */
final class CrossProducts {

    /** Q; columns of length one. */
    final double[][] x;

    /** Zo; columns of mean square one. */
    final double[][] z;

    /** Response less its least-squares fit. */
    final double[] y;

    final int[] subject;
    final int subjects;
    final double[][] r;
    final double[][] rInverse;
    final double[][] t;
    final double[][] tInverse;
    /** Q'y of the response as it came: coefficients of least squares on Q. */
    final double[] leastSquares;

    final double yy;
    final double logDetR;
    /** For each subject Zo'Zo, Zo'Q and Zo'y. */
    final double[][][] zz;

    final double[][][] zx;
    final double[][] zy;

    CrossProducts(MixedData data) {
        OrthonormalColumns fixed = OrthonormalColumns.of(data.fixed());
        OrthonormalColumns random = OrthonormalColumns.of(data.random());
        int n = data.size();
        x = fixed.q();
        r = fixed.r();
        rInverse = Small.inverseUpper(r);
        double root = Math.sqrt(n);
        z = random.q();
        t = random.r();
        for (int k = 0; k < z.length; k++) {
            for (int i = 0; i < n; i++) {
                z[k][i] *= root;
            }
            for (int j = 0; j < z.length; j++) {
                t[k][j] /= root;
            }
        }
        tInverse = Small.inverseUpper(t);
        y = data.response().clone();
        leastSquares = new double[x.length];
        for (int pass = 0; pass < 2; pass++) {
            for (int k = 0; k < x.length; k++) {
                double along = OrthonormalColumns.dot(x[k], y);
                leastSquares[k] += along;
                for (int i = 0; i < n; i++) {
                    y[i] -= along * x[k][i];
                }
            }
        }
        yy = OrthonormalColumns.dot(y, y);
        double log = 0;
        for (int k = 0; k < r.length; k++) {
            log += 2 * Math.log(r[k][k]);
        }
        logDetR = log;
        subject = data.subject().codes();
        subjects = data.subject().size();
        zz = new double[subjects][z.length][z.length];
        zx = new double[subjects][z.length][x.length];
        zy = new double[subjects][z.length];
        sum();
    }

    private void sum() {
        for (int i = 0; i < y.length; i++) {
            int s = subject[i];
            for (int k = 0; k < z.length; k++) {
                double value = z[k][i];
                for (int m = 0; m <= k; m++) {
                    zz[s][k][m] += value * z[m][i];
                    zz[s][m][k] = zz[s][k][m];
                }
                for (int j = 0; j < x.length; j++) {
                    zx[s][k][j] += value * x[j][i];
                }
                zy[s][k] += value * y[i];
            }
        }
    }

    int n() {
        return y.length;
    }

    int p() {
        return x.length;
    }

    int q() {
        return z.length;
    }

    double[] rowOfX(int i) {
        return row(x, i);
    }

    double[] rowOfZ(int i) {
        return row(z, i);
    }

    private static double[] row(double[][] columns, int i) {
        double[] row = new double[columns.length];
        for (int k = 0; k < row.length; k++) {
            row[k] = columns[k][i];
        }
        return row;
    }

    /** A combination of the user's fixed columns as one of the orthonormal columns: {@code R⁻ᵀ c}. */
    double[] fixedContrast(double[] c) {
        return Small.multiply(Small.transpose(rInverse), c);
    }

    /** Likewise of the random columns: {@code T⁻ᵀ c}. */
    double[] randomContrast(double[] c) {
        return Small.multiply(Small.transpose(tInverse), c);
    }
}
