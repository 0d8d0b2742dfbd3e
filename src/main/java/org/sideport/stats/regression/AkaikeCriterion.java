package org.sideport.stats.regression;

/**
 * Akaike's information criterion with the correction for small samples, for least squares with normal errors (Hurvich &
 * Tsai 1989, Biometrika 76:297; Burnham & Anderson 2002, Model Selection and Multimodel Inference, pages 63 and 66). Only
 * differences between models of the same observations on the same scale have a meaning.
 */
public final class AkaikeCriterion {

    private AkaikeCriterion() {}

    /**
     * Of the errors' variance at its maximum likelihood estimate {@code sumOfSquares / n}.
     *
     * @param sumOfSquares of the residuals, above 0
     */
    public static double logLikelihood(double sumOfSquares, int n) {
        if (!(sumOfSquares > 0)) {
            throw new IllegalArgumentException("sum of squares " + sumOfSquares);
        }
        return -0.5 * n * (Math.log(2 * Math.PI) + Math.log(sumOfSquares / n) + 1);
    }

    /**
     * {@code −2 logL + 2K + 2K(K + 1)/(n − K − 1)}.
     *
     * @param parameters of the curve and one for the errors' variance: K
     * @param n above K + 1
     */
    public static double corrected(double sumOfSquares, int n, int parameters) {
        if (n <= parameters + 1) {
            throw new IllegalArgumentException(n + " observations for " + parameters + " parameters");
        }
        double k = parameters;
        return -2 * logLikelihood(sumOfSquares, n) + 2 * k + 2 * k * (k + 1) / (n - k - 1);
    }

    /**
     * Akaike weights: {@code exp(−Δ/2)} scaled to the sum 1 (Burnham & Anderson 2002, page 75).
     *
     * @param criteria one per model, at least one
     */
    public static double[] weights(double... criteria) {
        double least = Double.POSITIVE_INFINITY;
        for (double criterion : criteria) {
            least = Math.min(least, criterion);
        }
        double[] weights = new double[criteria.length];
        double sum = 0;
        for (int i = 0; i < criteria.length; i++) {
            weights[i] = Math.exp(-0.5 * (criteria[i] - least));
            sum += weights[i];
        }
        for (int i = 0; i < criteria.length; i++) {
            weights[i] /= sum;
        }
        return weights;
    }
}
