package org.sideport.stats.variance;

/**
 * The profiled REML criterion of {@code y = mu + sum of Z_k u_k + e} as a function of the relative variances gamma_k =
 * var(u_k) / var(e) (Bates, Mächler, Bolker & Walker 2015, Journal of Statistical Software 67(1), equations 34 to 42 with
 * theta² = gamma), and its derivatives (Gilmour, Thompson & Cullis 1995, Biometrics 51:1440, for the average
 * information). With V = I + sum of gamma_k Z_k Z_k' and A = S Z'Z S + I, S = diag(sqrt gamma), everything follows from
 * solves with A: S Z' V⁻¹ = A⁻¹ S Z', and tr(Z_k' V⁻¹ Z_k) = (q_k − tr_k A⁻¹) / gamma_k. Mutable, for one thread.
 */
final class RemlCriterion {

    private final CrossProducts data;
    private final SparseCholesky cholesky;
    private final double[] scale;

    private double[] gamma = {};
    private double[] forwardY = {};
    private double[] forward1 = {};

    /** 1'V⁻¹1. */
    private double oneOne;

    /** y'Py. */
    private double rss;

    private double centredMean;

    RemlCriterion(CrossProducts data) {
        this.data = data;
        cholesky = new SparseCholesky(data.columns(), data.columnStart, data.rows, data.counts);
        scale = new double[data.columns()];
    }

    CrossProducts data() {
        return data;
    }

    /** The criterion at these relative variances, each 0 or more. */
    double at(double[] relativeVariances) {
        gamma = relativeVariances.clone();
        for (int k = 0; k < data.factors; k++) {
            java.util.Arrays.fill(scale, data.start[k], data.start[k + 1], Math.sqrt(gamma[k]));
        }
        cholesky.factor(scale);
        forwardY = cholesky.forward(scaled(data.zy));
        forward1 = cholesky.forward(scaled(data.z1));
        double yVy = data.yy - dot(forwardY, forwardY);
        double oneY = -dot(forward1, forwardY);
        oneOne = data.n - dot(forward1, forward1);
        centredMean = oneY / oneOne;
        rss = yVy - oneY * centredMean;
        int df = data.n - 1;
        return cholesky.logDeterminant() + Math.log(oneOne) + df * (1 + Math.log(2 * Math.PI * rss / df));
    }

    double residualVariance() {
        return rss / (data.n - 1);
    }

    double mean() {
        return data.mean + centredMean;
    }

    double meanVariance() {
        return residualVariance() / oneOne;
    }

    /**
     * @param trace tr(P Z_k Z_k')
     * @param quadratic y'P Z_k Z_k'P y
     * @param gradient of the criterion by gamma
     * @param information average information of the criterion (second derivatives), the residual variance profiled out
     */
    @SuppressWarnings("ArrayRecordComponent")
    record Derivatives(double[] trace, double[] quadratic, double[] gradient, double[][] information, double rss) {}

    /** At the last {@link #at}; all gamma must be positive. */
    Derivatives derivatives(boolean withInformation) {
        int factors = data.factors;
        double[] forward = forwardY.clone();
        for (int i = 0; i < forward.length; i++) {
            forward[i] -= centredMean * forward1[i];
        }
        double[] g = unscaled(cholesky.backward(forward));
        double[] c = unscaled(cholesky.backward(forward1.clone()));
        double[] inverse = cholesky.inverseDiagonal();
        double[] trace = new double[factors];
        double[] quadratic = new double[factors];
        double[] gradient = new double[factors];
        for (int k = 0; k < factors; k++) {
            double lost = 0;
            double ones = 0;
            for (int i = data.start[k]; i < data.start[k + 1]; i++) {
                lost += 1 - inverse[i];
                ones += c[i] * c[i];
                quadratic[k] += g[i] * g[i];
            }
            trace[k] = lost / gamma[k] - ones / oneOne;
            gradient[k] = trace[k] - quadratic[k] / residualVariance();
        }
        double[][] information = withInformation ? information(g, c, quadratic) : new double[0][0];
        return new Derivatives(trace, quadratic, gradient, information, rss);
    }

    private double[][] information(double[] g, double[] c, double[] quadratic) {
        int factors = data.factors;
        double sigma2 = residualVariance();
        double[] ones = new double[factors];
        double[][] full = new double[factors][factors];
        for (int k = 0; k < factors; k++) {
            for (int i = data.start[k]; i < data.start[k + 1]; i++) {
                ones[k] += g[i] * c[i];
            }
        }
        for (int k = 0; k < factors; k++) {
            double[] solved = unscaled(cholesky.solve(scaled(data.timesBlock(k, g))));
            for (int m = 0; m < factors; m++) {
                for (int i = data.start[m]; i < data.start[m + 1]; i++) {
                    full[m][k] += g[i] * solved[i];
                }
            }
        }
        double[][] information = new double[factors][factors];
        for (int k = 0; k < factors; k++) {
            for (int m = 0; m < factors; m++) {
                information[k][m] = (full[k][m] + full[m][k]) / 2 / sigma2
                        - ones[k] * ones[m] / oneOne / sigma2
                        - quadratic[k] * quadratic[m] / (sigma2 * sigma2) / (data.n - 1);
            }
        }
        return information;
    }

    private double[] scaled(double[] vector) {
        double[] product = new double[vector.length];
        for (int i = 0; i < vector.length; i++) {
            product[i] = vector[i] * scale[i];
        }
        return product;
    }

    private double[] unscaled(double[] vector) {
        for (int i = 0; i < vector.length; i++) {
            vector[i] /= scale[i];
        }
        return vector;
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }
}
