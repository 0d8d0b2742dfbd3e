package org.sideport.stats.regression;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Quantiles;
import org.sideport.stats.Refusal;

/**
 * M-estimation by iteratively reweighted least squares, the scale re-estimated at each step by the median absolute
 * residual (Huber 1981, Robust Statistics, sections 7.6 to 7.8). Starts from least squares; the bisquare, which has more
 * than one solution, from Huber's. Guards against outlying values, not against outlying case numbers.
 */
public final class RobustRegression {

    private static final double RESTED = 1e-11;
    private static final int MOST_STEPS = 600;
    /** Median absolute value of the standard normal distribution, to four digits as is the custom. */
    private static final double NORMAL_MAD = 0.6745;

    /** What is refitted with changed weights. */
    private interface Model {
        /** Refits; gives the residuals; {@code null} if that fails. */
        double @Nullable [] residuals(double[] weights);

        double[] parameters();

        /** The unweighted linear problem at the parameters. */
        @Nullable
        OrthogonalFactor linearised();
    }

    private RobustRegression() {}

    /**
     * @param y one finite value per observation of the design
     * @return refused as least squares is, if the reweighting does not come to rest, or if more than half of the values
     *     lie exactly on the fit
     */
    public static Outcome<RobustFit> linear(DesignMatrix design, double[] y, RobustLoss loss, double level) {
        return LinearLeastSquares.fit(design, y, level)
                .flatMap(first -> fit(new Linear(design, y), design.names(), first.residuals(), loss, level));
    }

    /** The same for a curve; starts as in {@link NonlinearLeastSquares}. */
    public static Outcome<RobustFit> curve(
            List<String> names, CurveFunction curve, double[] y, List<double[]> starts, RobustLoss loss, double level) {
        return NonlinearLeastSquares.fit(names, curve, y, starts, level)
                .flatMap(first -> fit(new Curve(curve, y, first.parameters()), names, first.residuals(), loss, level));
    }

    private static Outcome<RobustFit> fit(
            Model model, List<String> names, double[] first, RobustLoss loss, double level) {
        double[] residuals = first;
        double scale = scale(first);
        int steps = 0;
        List<RobustLoss> stages =
                loss == RobustLoss.HUBER ? List.of(loss) : List.of(RobustLoss.HUBER, RobustLoss.BISQUARE);
        for (RobustLoss stage : stages) {
            double change = Double.POSITIVE_INFINITY;
            for (int k = 0; k < MOST_STEPS && change > RESTED; k++) {
                // Median scale and weights can chase each other round a ring: then half steps, at last the scale held.
                scale = k < MOST_STEPS / 3
                        ? scale(residuals)
                        : k < 2 * MOST_STEPS / 3 ? Math.sqrt(scale * scale(residuals)) : scale;
                if (!(scale > 0)) {
                    return Outcome.refused(
                            Refusal.Reason.NO_VARIATION,
                            "more than half of the " + residuals.length + " values lie exactly on the fit",
                            "check the data, or fit without down-weighting");
                }
                double @Nullable [] next = model.residuals(weights(residuals, scale, stage));
                if (next == null) {
                    return unsettled(names);
                }
                change = change(residuals, next);
                residuals = next;
                steps++;
            }
            if (change > RESTED) {
                return unsettled(names);
            }
        }
        return result(model, names, residuals, scale, loss, steps, level);
    }

    private static Outcome<RobustFit> unsettled(List<String> names) {
        return Outcome.refused(
                Refusal.Reason.NOT_CONVERGED,
                "down-weighting outlying values of the fit of " + String.join(", ", names) + " did not come to rest",
                "collect more data, or fit without down-weighting");
    }

    private static double scale(double[] residuals) {
        return Quantiles.type7(Arrays.stream(residuals).map(Math::abs).toArray(), 0.5) / NORMAL_MAD;
    }

    private static double[] weights(double[] residuals, double scale, RobustLoss loss) {
        return Arrays.stream(residuals).map(r -> loss.weight(r / scale)).toArray();
    }

    private static double change(double[] before, double[] after) {
        double moved = 0;
        double size = 0;
        for (int i = 0; i < before.length; i++) {
            moved += (after[i] - before[i]) * (after[i] - before[i]);
            size += before[i] * before[i];
        }
        return Math.sqrt(moved / Math.max(size, Double.MIN_NORMAL));
    }

    /** Standard errors by Huber 1981, equations 6.5 and 7.81: the third of his formulas with the correction K. */
    private static Outcome<RobustFit> result(
            Model model,
            List<String> names,
            double[] residuals,
            double scale,
            RobustLoss loss,
            int steps,
            double level) {
        @Nullable OrthogonalFactor factor = model.linearised();
        if (factor == null) {
            return unsettled(names);
        }
        int n = residuals.length;
        int p = names.size();
        double[] weights = weights(residuals, scale, loss);
        double squares = 0;
        double mean = 0;
        for (int i = 0; i < n; i++) {
            squares += (weights[i] * residuals[i]) * (weights[i] * residuals[i]);
            mean += loss.influenceSlope(residuals[i] / scale) / n;
        }
        double variance = 0;
        for (double residual : residuals) {
            double d = loss.influenceSlope(residual / scale) - mean;
            variance += d * d / (n - 1);
        }
        double correction = 1 + p * variance / (n * mean * mean);
        double sd = Math.sqrt(squares / (n - p)) * correction / mean;
        double t = new TDistribution(n - p).inverseCumulativeProbability(0.5 + level / 2);
        List<Coefficient> coefficients = new ArrayList<>();
        double[] parameters = model.parameters();
        for (int j = 0; j < p; j++) {
            double se = sd * Math.sqrt(factor.inverseProduct(j, j));
            if (!Double.isFinite(se)) {
                return unsettled(names);
            }
            coefficients.add(new Coefficient(
                    names.get(j),
                    parameters[j],
                    se,
                    new Interval(parameters[j] - t * se, parameters[j] + t * se, level)));
        }
        return Outcome.of(new RobustFit(loss, coefficients, residuals, weights, scale, n, n - p, steps));
    }

    private static final class Linear implements Model {

        private final DesignMatrix design;
        private final double[] y;
        private double[] parameters = {};

        Linear(DesignMatrix design, double[] y) {
            this.design = design;
            this.y = y;
        }

        @Override
        public double @Nullable [] residuals(double[] weights) {
            Outcome<LinearFit> outcome = LinearLeastSquares.fit(design, y, weights, 0.95);
            if (outcome instanceof Outcome.Found<LinearFit> found) {
                parameters = found.value().coefficients().stream()
                        .mapToDouble(Coefficient::value)
                        .toArray();
                return found.value().residuals();
            }
            return null;
        }

        @Override
        public double[] parameters() {
            return parameters;
        }

        @Override
        public @Nullable OrthogonalFactor linearised() {
            return LinearLeastSquares.factor(design, y, null);
        }
    }

    private static final class Curve implements Model {

        private final CurveFunction curve;
        private final double[] y;
        private double[] parameters;

        Curve(CurveFunction curve, double[] y, double[] parameters) {
            this.curve = curve;
            this.y = y;
            this.parameters = parameters;
        }

        @Override
        public double @Nullable [] residuals(double[] weights) {
            LevenbergMarquardt search = new LevenbergMarquardt(curve, y, weights);
            LevenbergMarquardt.@Nullable Found found = search.search(parameters);
            if (found == null) {
                return null;
            }
            parameters = search.polish(found).parameters();
            double[] residuals = new double[y.length];
            for (int i = 0; i < y.length; i++) {
                residuals[i] = y[i] - curve.value(i, parameters, null);
            }
            return residuals;
        }

        @Override
        public double[] parameters() {
            return parameters;
        }

        @Override
        public @Nullable OrthogonalFactor linearised() {
            return new LevenbergMarquardt(curve, y, null).linearised(parameters);
        }
    }
}
