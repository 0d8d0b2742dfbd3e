package org.sideport.stats.regression;

import java.util.List;

/**
 * A curve fitted by least squares.
 *
 * @param coefficients with linear-approximation standard errors; profile-likelihood limits are better, see {@link
 *     ProfileLikelihood}
 * @param residuals observed less fitted, unweighted; not to be changed
 * @param sumOfSquares of the residuals, weighted if weights were given
 * @param residualSd {@code √(sumOfSquares / df)}
 * @param df observations less parameters
 * @param correlations of the estimates, by linear approximation; not to be changed
 * @param iterations of the search
 */
@SuppressWarnings("ArrayRecordComponent")
public record NonlinearFit(
        List<Coefficient> coefficients,
        double[] residuals,
        double sumOfSquares,
        double residualSd,
        int n,
        int df,
        double[][] correlations,
        int iterations) {

    public NonlinearFit {
        coefficients = List.copyOf(coefficients);
    }

    public double[] parameters() {
        return coefficients.stream().mapToDouble(Coefficient::value).toArray();
    }
}
