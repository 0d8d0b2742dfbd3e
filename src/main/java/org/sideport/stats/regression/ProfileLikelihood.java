package org.sideport.stats.regression;

import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.exception.MathRuntimeException;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Profile-likelihood limits of a parameter of a curve: where the least sum of squares with that parameter held fixed
 * exceeds the least of all by {@code t² s²} (Bates & Watts 1988, Nonlinear Regression Analysis and Its Applications,
 * section 6.1, equation 6.2). Unlike {@code ± t · se} they may be lopsided, and infinite where the data set no bound.
 */
public final class ProfileLikelihood {

    private static final int MOST_DOUBLINGS = 30;
    private static final int MOST_HALVINGS = 200;

    private final CurveFunction curve;
    private final double[] y;
    private final NonlinearFit fit;
    private final int held;
    private final double target;
    private double[] others;

    private ProfileLikelihood(CurveFunction curve, double[] y, NonlinearFit fit, int held, double level) {
        this.curve = curve;
        this.y = y;
        this.fit = fit;
        this.held = held;
        target = new TDistribution(fit.df()).inverseCumulativeProbability(0.5 + level / 2);
        others = rest(fit.parameters());
    }

    /**
     * @param curve that was fitted
     * @param y to which it was fitted, unweighted
     * @param parameter its number, from 0
     * @param level coverage, for instance 0.95
     * @return refused if the search along the profile meets a better fit than the given one
     */
    public static Outcome<Interval> limits(
            CurveFunction curve, double[] y, NonlinearFit fit, int parameter, double level) {
        if (fit.residualSd() == 0) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "all values lie on the curve, so there is no error to judge by",
                    "check the data");
        }
        @Nullable Double lower = new ProfileLikelihood(curve, y, fit, parameter, level).bound(-1);
        @Nullable Double upper = new ProfileLikelihood(curve, y, fit, parameter, level).bound(1);
        if (lower == null || upper == null) {
            return Outcome.refused(
                    Refusal.Reason.NOT_CONVERGED,
                    "the search for limits of "
                            + fit.coefficients().get(parameter).name() + " met a better fit",
                    "fit the curve from more starts");
        }
        return Outcome.of(new Interval(lower, upper, level));
    }

    /** @return {@code null} if a better fit was met */
    private @Nullable Double bound(int side) {
        Coefficient coefficient = fit.coefficients().get(held);
        double inner = coefficient.value();
        double step = target * coefficient.se();
        for (int k = 0; k < MOST_DOUBLINGS; k++) {
            double outer = coefficient.value() + side * step;
            double excess = excess(outer);
            if (Double.isNaN(excess)) {
                return edge(inner, outer);
            }
            if (excess < -1e-6 - target) {
                return null;
            }
            if (excess >= 0) {
                return cross(Math.min(inner, outer), Math.max(inner, outer));
            }
            inner = outer;
            step *= 1.5;
        }
        return side * Double.POSITIVE_INFINITY;
    }

    /** There is no curve at the outer value: the limit lies before the last value with one, or is that value. */
    private double edge(double inside, double outside) {
        double inner = inside;
        double outer = outside;
        for (int k = 0; k < MOST_HALVINGS; k++) {
            double middle = 0.5 * (inner + outer);
            double excess = excess(middle);
            if (excess >= 0) {
                return cross(Math.min(inner, middle), Math.max(inner, middle));
            }
            if (Double.isNaN(excess)) {
                outer = middle;
            } else {
                inner = middle;
            }
        }
        return inner;
    }

    private double cross(double from, double to) {
        UnivariateFunction function = this::excess;
        try {
            return new BrentSolver(1e-12, Double.MIN_NORMAL).solve(1_000, function, from, to);
        } catch (MathRuntimeException e) {
            return 0.5 * (from + to);
        }
    }

    /** Root of the excess of the sum of squares in residual SDs, less the target; NaN where there is no curve. */
    private double excess(double value) {
        double squares = least(value);
        double tau = (squares - fit.sumOfSquares()) / (fit.residualSd() * fit.residualSd());
        return Math.signum(tau) * Math.sqrt(Math.abs(tau)) - target;
    }

    private double least(double value) {
        double[] full = new double[others.length + 1];
        CurveFunction reduced = (i, parameters, gradient) -> {
            fill(full, parameters, value);
            if (gradient == null) {
                return curve.value(i, full, null);
            }
            double[] all = new double[full.length];
            double result = curve.value(i, full, all);
            for (int j = 0, k = 0; j < all.length; j++) {
                if (j != held) {
                    gradient[k++] = all[j];
                }
            }
            return result;
        };
        LevenbergMarquardt search = new LevenbergMarquardt(reduced, y, null);
        if (others.length == 0) {
            return search.sumOfSquares(others);
        }
        LevenbergMarquardt.@Nullable Found found = search.search(others);
        LevenbergMarquardt.@Nullable Found again = search.search(rest(fit.parameters()));
        if (found == null || again != null && again.sumOfSquares() < found.sumOfSquares()) {
            found = again;
        }
        if (found == null) {
            return Double.NaN;
        }
        others = found.parameters();
        return found.sumOfSquares();
    }

    private void fill(double[] full, double[] parameters, double value) {
        for (int j = 0, k = 0; j < full.length; j++) {
            full[j] = j == held ? value : parameters[k++];
        }
    }

    private double[] rest(double[] all) {
        double[] rest = new double[all.length - 1];
        for (int j = 0, k = 0; j < all.length; j++) {
            if (j != held) {
                rest[k++] = all[j];
            }
        }
        return rest;
    }
}
