package org.sideport.stats.regression;

import java.util.List;

/**
 * A linear model fitted by least squares.
 *
 * @param residuals observed less fitted, one per observation; not to be changed
 * @param leverages 0 to 1, one per observation, their sum is the number of terms; not to be changed
 * @param sumOfSquares of the residuals
 * @param residualSd {@code √(sumOfSquares / df)}
 * @param df observations less terms
 * @param rSquared share of the variation explained; about the mean with an intercept, about zero without; 1 if nothing
 *     varies
 */
@SuppressWarnings("ArrayRecordComponent")
public record LinearFit(
        List<Coefficient> coefficients,
        double[] residuals,
        double[] leverages,
        double sumOfSquares,
        double residualSd,
        int n,
        int df,
        double rSquared) {

    public LinearFit {
        coefficients = List.copyOf(coefficients);
    }
}
