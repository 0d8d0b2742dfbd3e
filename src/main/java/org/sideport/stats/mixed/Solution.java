package org.sideport.stats.mixed;

/**
 * Fixed effects and what follows from them at one relative covariance factor, in the coordinates of
 * {@link CrossProducts}. With {@code V = I + Z F F' Z'} (the residual variance taken out) it holds the blocks of
 * {@code Z'V⁻¹Z}, {@code Z'V⁻¹X} and {@code Z'V⁻¹(y − Xβ)} of each subject.
 */
final class Solution {

    private final Deviance deviance;
    private final double[][] factor;
    /** Log determinant of V, and for REML of X'V⁻¹X in the user's columns too. */
    private final double logDet;

    /** (X'V⁻¹X)⁻¹. */
    final double[][] c;

    /** Fixed effects on the orthonormal columns, least squares not yet added. */
    final double[] gamma;

    /** (y − Xβ)'V⁻¹(y − Xβ). */
    final double squares;

    /** For each subject G with {@code G'G = F (F'AF + I)⁻¹ F'}, A its Z'Z. */
    private final double[][][] g;

    Solution(Deviance deviance, double[][] factor) {
        this.deviance = deviance;
        this.factor = factor;
        CrossProducts data = deviance.data();
        int p = data.p();
        int q = data.q();
        double[][] xvx = Small.identity(p);
        double[] xvy = new double[p];
        double yvy = data.yy;
        double log = 0;
        g = new double[data.subjects][][];
        double[][] transposed = Small.transpose(factor);
        for (int s = 0; s < data.subjects; s++) {
            double[][] k = Small.multiply(transposed, Small.multiply(data.zz[s], factor));
            for (int i = 0; i < q; i++) {
                k[i][i] += 1;
            }
            log += Small.cholesky(k);
            g[s] = solveLower(k, transposed);
            double[][] gx = Small.multiply(g[s], data.zx[s]);
            double[] gy = Small.multiply(g[s], data.zy[s]);
            for (int m = 0; m < q; m++) {
                for (int i = 0; i < p; i++) {
                    for (int j = 0; j <= i; j++) {
                        xvx[i][j] -= gx[m][i] * gx[m][j];
                    }
                    xvy[i] -= gx[m][i] * gy[m];
                }
                yvy -= gy[m] * gy[m];
            }
        }
        double logDetX = Small.cholesky(xvx);
        logDet = deviance.criterion() == Criterion.REML ? log + logDetX + data.logDetR : log;
        c = Small.inverseFromCholesky(xvx);
        gamma = Small.multiply(c, xvy);
        double[] half = xvy.clone();
        Small.forward(xvx, half);
        squares = Double.isNaN(logDetX) ? Double.NaN : yvy - OrthonormalColumns.dot(half, half);
    }

    private static double[][] solveLower(double[][] l, double[][] b) {
        double[][] x = new double[b.length][];
        for (int i = 0; i < b.length; i++) {
            x[i] = b[i].clone();
            for (int j = 0; j < x[i].length; j++) {
                for (int k = 0; k < i; k++) {
                    x[i][j] -= l[i][k] * x[k][j];
                }
                x[i][j] /= l[i][i];
            }
        }
        return x;
    }

    double profiled() {
        return deviance.profiled(logDet, squares);
    }

    double at(double sigma) {
        return deviance.at(logDet, squares, sigma);
    }

    double sigma() {
        return Math.sqrt(squares / deviance.denominator());
    }

    double[][] factor() {
        return factor;
    }

    /**
     * Derivative of the deviance by {@code D = F F'} at this residual SD, as a symmetric matrix M: the deviance changes
     * by {@code tr(M dD)}. At the profiled σ it is the derivative of the profiled deviance.
     */
    double[][] derivative(double sigma) {
        CrossProducts data = deviance.data();
        int q = data.q();
        double[][] sum = new double[q][q];
        boolean reml = deviance.criterion() == Criterion.REML;
        for (int s = 0; s < data.subjects; s++) {
            double[][] w = zvz(s);
            double[][] u = zvx(s);
            double[] e = zve(s, u);
            double[][] uc = Small.multiply(u, c);
            for (int i = 0; i < q; i++) {
                for (int j = 0; j < q; j++) {
                    double value = w[i][j] - e[i] * e[j] / (sigma * sigma);
                    sum[i][j] += reml ? value - OrthonormalColumns.dot(uc[i], u[j]) : value;
                }
            }
        }
        return sum;
    }

    /** Derivative of the deviance by σ. */
    double derivativeBySigma(double sigma) {
        return 2 * (deviance.denominator() - squares / (sigma * sigma)) / sigma;
    }

    /** Z'V⁻¹Z of a subject. */
    private double[][] zvz(int s) {
        double[][] a = deviance.data().zz[s];
        double[][] ga = Small.multiply(g[s], a);
        return minus(a, Small.multiply(Small.transpose(ga), ga));
    }

    /** Z'V⁻¹X of a subject. */
    double[][] zvx(int s) {
        CrossProducts data = deviance.data();
        double[][] ga = Small.multiply(g[s], data.zz[s]);
        return minus(data.zx[s], Small.multiply(Small.transpose(ga), Small.multiply(g[s], data.zx[s])));
    }

    private double[] zve(int s, double[][] zvx) {
        CrossProducts data = deviance.data();
        double[][] ga = Small.multiply(g[s], data.zz[s]);
        double[] e = data.zy[s].clone();
        double[] away = Small.multiply(Small.transpose(ga), Small.multiply(g[s], data.zy[s]));
        double[] fitted = Small.multiply(zvx, gamma);
        for (int i = 0; i < e.length; i++) {
            e[i] -= away[i] + fitted[i];
        }
        return e;
    }

    /** F F'. */
    double[][] relativeCovariance() {
        return Small.multiply(factor, Small.transpose(factor));
    }

    /** Best linear unbiased predictor of a subject's b (in transformed coordinates): {@code D Z'V⁻¹(y − Xβ)}. */
    double[] blup(int s) {
        return Small.multiply(relativeCovariance(), zve(s, zvx(s)));
    }

    /** Var(b | y) / σ² of a subject, the fixed effects taken as known. */
    double[][] conditionalVariance(int s) {
        return Small.multiply(Small.transpose(g[s]), g[s]);
    }

    /** Variance of {@code x'β̂} over σ². */
    double variance(double[] x) {
        return Small.form(x, c, x);
    }

    /**
     * Variance of {@code x'(β̂ − β) + z'(b̂ − b)} of a subject over σ²: uncertainty of the fixed effects included
     * (Henderson 1975, Biometrics 31:423).
     */
    double variance(double[] x, double[] z, int s) {
        double[] dz = Small.multiply(relativeCovariance(), z);
        double[] udz = Small.multiply(Small.transpose(zvx(s)), dz);
        double[] difference = x.clone();
        for (int i = 0; i < difference.length; i++) {
            difference[i] -= udz[i];
        }
        return Small.form(difference, c, difference) + Small.form(z, conditionalVariance(s), z);
    }

    private static double[][] minus(double[][] a, double[][] b) {
        double[][] c = new double[a.length][a[0].length];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < c[i].length; j++) {
                c[i][j] = a[i][j] - b[i][j];
            }
        }
        return c;
    }
}
