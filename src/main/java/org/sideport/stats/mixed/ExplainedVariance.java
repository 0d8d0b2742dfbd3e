package org.sideport.stats.mixed;

import org.hipparchus.stat.descriptive.moment.Variance;

/**
 * Shares of variance explained (Nakagawa & Schielzeth 2013, Methods in Ecology and Evolution 4:133, equations 26 and 30;
 * with random slopes Johnson 2014, same journal 5:944, equation 10: the mean of {@code z'Σz} over the observations).
 *
 * @param marginal by the fixed effects, 0 to 1
 * @param conditional by fixed and random effects, {@code marginal} to 1
 */
public record ExplainedVariance(double marginal, double conditional) {

    static ExplainedVariance of(MixedFit fit) {
        CrossProducts data = fit.deviance().data();
        double[] coefficients = data.leastSquares.clone();
        for (int j = 0; j < coefficients.length; j++) {
            coefficients[j] += fit.solution().gamma[j];
        }
        double[] fitted = new double[data.n()];
        double random = 0;
        double[][] covariance = fit.solution().relativeCovariance();
        for (int i = 0; i < fitted.length; i++) {
            fitted[i] = OrthonormalColumns.dot(data.rowOfX(i), coefficients);
            double[] z = data.rowOfZ(i);
            random += Small.form(z, covariance, z) / fitted.length;
        }
        double residual = fit.solution().sigma() * fit.solution().sigma();
        double fixed = new Variance().evaluate(fitted);
        double between = random * residual;
        double all = fixed + between + residual;
        return new ExplainedVariance(fixed / all, (fixed + between) / all);
    }
}
