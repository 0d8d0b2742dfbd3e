package org.sideport.stats.regression;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Nonlinear least squares: Levenberg–Marquardt from one or several starts (Bates & Watts 1988, Nonlinear Regression
 * Analysis and Its Applications, chapters 2 and 3), the best end point taken.
 */
public final class NonlinearLeastSquares {

    private NonlinearLeastSquares() {}

    /**
     * @param names of the parameters
     * @param y one finite value per observation of the curve
     * @param starts each with one number per parameter; at least one
     * @param level coverage of the linear-approximation limits
     * @return refused if there are not more observations than parameters, no start comes to rest, or the derivatives at
     *     the end are not independent
     */
    public static Outcome<NonlinearFit> fit(
            List<String> names, CurveFunction curve, double[] y, List<double[]> starts, double level) {
        return fit(names, curve, y, null, starts, level);
    }

    /** @param weights not negative, proportional to the inverse of the error variance; {@code null} for equal ones */
    public static Outcome<NonlinearFit> fit(
            List<String> names,
            CurveFunction curve,
            double[] y,
            double @Nullable [] weights,
            List<double[]> starts,
            double level) {
        int p = names.size();
        if (starts.isEmpty() || starts.stream().anyMatch(start -> start.length != p)) {
            throw new IllegalArgumentException("a start has one number for each of " + p + " parameters");
        }
        int counted = Weights.counted(weights, y.length);
        if (counted <= p) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + counted + " observations for " + p + " parameters",
                    "collect at least " + (p + 1) + " observations, better ten per parameter");
        }
        LevenbergMarquardt search = new LevenbergMarquardt(curve, y, weights);
        LevenbergMarquardt.@Nullable Found best = null;
        for (double[] start : starts) {
            LevenbergMarquardt.@Nullable Found found = search.search(start);
            if (found != null && (best == null || found.sumOfSquares() < best.sumOfSquares())) {
                best = found;
            }
        }
        if (best == null) {
            return Outcome.refused(
                    Refusal.Reason.NOT_CONVERGED,
                    "the search for " + String.join(", ", names) + " did not come to rest",
                    "collect more data or take a simpler curve");
        }
        LevenbergMarquardt.Found end = search.polish(best);
        @Nullable OrthogonalFactor factor = search.linearised(end.parameters());
        if (factor == null) {
            return Outcome.refused(
                    Refusal.Reason.NOT_IDENTIFIED,
                    "the data cannot tell " + String.join(", ", names) + " apart",
                    "collect more data or take a simpler curve");
        }
        return Outcome.of(result(names, curve, y, end, factor, counted - p, level));
    }

    private static NonlinearFit result(
            List<String> names,
            CurveFunction curve,
            double[] y,
            LevenbergMarquardt.Found end,
            OrthogonalFactor factor,
            int df,
            double level) {
        int p = names.size();
        double sd = Math.sqrt(end.sumOfSquares() / df);
        double t = new TDistribution(df).inverseCumulativeProbability(0.5 + level / 2);
        List<Coefficient> coefficients = new ArrayList<>();
        double[][] correlations = new double[p][p];
        for (int j = 0; j < p; j++) {
            double value = end.parameters()[j];
            double se = sd * Math.sqrt(factor.inverseProduct(j, j));
            coefficients.add(
                    new Coefficient(names.get(j), value, se, new Interval(value - t * se, value + t * se, level)));
            for (int k = 0; k < p; k++) {
                correlations[j][k] = factor.inverseProduct(j, k)
                        / Math.sqrt(factor.inverseProduct(j, j) * factor.inverseProduct(k, k));
            }
        }
        double[] residuals = new double[y.length];
        for (int i = 0; i < y.length; i++) {
            residuals[i] = y[i] - curve.value(i, end.parameters(), null);
        }
        return new NonlinearFit(
                coefficients, residuals, end.sumOfSquares(), sd, y.length, df, correlations, end.iterations());
    }
}
