package org.sideport.stats.regression;

import java.util.List;

/**
 * A model fitted so that outlying values count less. No value is taken away silently: each one's weight is here.
 *
 * @param coefficients standard errors by Huber's third formula; limits {@code ± t · se}
 * @param residuals observed less fitted; not to be changed
 * @param weights 0 to 1, one per observation; not to be changed
 * @param scale of the errors: median absolute residual / 0.6745
 * @param df observations less parameters
 * @param iterations of reweighting
 */
@SuppressWarnings("ArrayRecordComponent")
public record RobustFit(
        RobustLoss loss,
        List<Coefficient> coefficients,
        double[] residuals,
        double[] weights,
        double scale,
        int n,
        int df,
        int iterations) {

    public RobustFit {
        coefficients = List.copyOf(coefficients);
    }

    public double[] parameters() {
        return coefficients.stream().mapToDouble(Coefficient::value).toArray();
    }
}
