package org.sideport.stats.regression;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Linear least squares, ordinary or weighted, by an orthogonal decomposition in 32-digit arithmetic: for ill-conditioned
 * designs the digits that the data carry come through. Costs n p² operations of some twenty flops each and memory n p.
 */
public final class LinearLeastSquares {

    private LinearLeastSquares() {}

    /**
     * @param y one finite value per observation of the design
     * @param level coverage of the limits, for instance 0.95
     * @return refused if there are not more observations than terms, or the terms are linearly dependent
     */
    public static Outcome<LinearFit> fit(DesignMatrix design, double[] y, double level) {
        return fit(design, y, null, level);
    }

    /**
     * @param weights not negative, proportional to the inverse of the error variance; {@code null} for equal ones.
     *     Residuals are given unweighted, the sum of squares weighted; observations of weight 0 do not count.
     */
    public static Outcome<LinearFit> fit(DesignMatrix design, double[] y, double @Nullable [] weights, double level) {
        int n = design.observations();
        int p = design.terms();
        if (y.length != n) {
            throw new IllegalArgumentException("a design of " + n + " observations, " + y.length + " values");
        }
        int counted = Weights.counted(weights, n);
        if (counted <= p) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + counted + " observations for " + p + " terms",
                    "collect at least " + (p + 1) + " observations, better ten per term");
        }
        @Nullable OrthogonalFactor factor = factor(design, y, weights);
        if (factor == null) {
            return Outcome.refused(
                    Refusal.Reason.NOT_IDENTIFIED,
                    "the terms " + String.join(", ", design.names()) + " are not independent in these data",
                    "leave out a term that the others determine");
        }
        return Outcome.of(result(design, y, weights, factor, counted, level));
    }

    static @Nullable OrthogonalFactor factor(DesignMatrix design, double[] y, double @Nullable [] weights) {
        int n = y.length;
        DoubleDouble[][] columns = new DoubleDouble[design.terms()][n];
        DoubleDouble[] response = new DoubleDouble[n];
        for (int i = 0; i < n; i++) {
            if (!Double.isFinite(y[i])) {
                throw new IllegalArgumentException("not a finite value: " + y[i]);
            }
            DoubleDouble root = weights == null
                    ? DoubleDouble.ONE
                    : DoubleDouble.of(weights[i]).sqrt();
            response[i] = DoubleDouble.of(y[i]).times(root);
            for (int j = 0; j < columns.length; j++) {
                columns[j][i] = design.entry(i, j).times(root);
            }
        }
        return OrthogonalFactor.of(columns, response);
    }

    private static LinearFit result(
            DesignMatrix design,
            double[] y,
            double @Nullable [] weights,
            OrthogonalFactor factor,
            int counted,
            double level) {
        int n = y.length;
        int df = counted - design.terms();
        double squares = factor.sumOfSquares();
        double sd = Math.sqrt(squares / df);
        double t = new TDistribution(df).inverseCumulativeProbability(0.5 + level / 2);
        List<Coefficient> coefficients = new ArrayList<>();
        for (int j = 0; j < design.terms(); j++) {
            double value = factor.coefficient(j);
            double se = sd * Math.sqrt(factor.inverseProduct(j, j));
            coefficients.add(new Coefficient(
                    design.names().get(j), value, se, new Interval(value - t * se, value + t * se, level)));
        }
        double[] residuals = new double[n];
        double[] leverages = new double[n];
        for (int i = 0; i < n; i++) {
            residuals[i] = weights == null ? factor.residual(i) : y[i] - fitted(design, factor, i);
            leverages[i] = factor.leverage(i);
        }
        double total = total(design, y, weights);
        return new LinearFit(
                coefficients, residuals, leverages, squares, sd, n, df, total > 0 ? 1 - squares / total : 1);
    }

    private static double fitted(DesignMatrix design, OrthogonalFactor factor, int i) {
        DoubleDouble sum = DoubleDouble.ZERO;
        for (int j = 0; j < design.terms(); j++) {
            sum = sum.plus(design.entry(i, j).times(DoubleDouble.of(factor.coefficient(j))));
        }
        return sum.value();
    }

    private static double total(DesignMatrix design, double[] y, double @Nullable [] weights) {
        double sum = 0;
        double mean = 0;
        for (int i = 0; i < y.length; i++) {
            double w = weights == null ? 1 : weights[i];
            sum += w;
            mean += w * y[i];
        }
        mean = design.hasIntercept() ? mean / sum : 0;
        double total = 0;
        for (int i = 0; i < y.length; i++) {
            double w = weights == null ? 1 : weights[i];
            total += w * (y[i] - mean) * (y[i] - mean);
        }
        return total;
    }
}
