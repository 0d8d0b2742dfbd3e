package org.sideport.stats.regression;

import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresFactory;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;
import org.hipparchus.util.Precision;
import org.jspecify.annotations.Nullable;

/** The search for the parameters: the library's Levenberg–Marquardt (Moré 1978), polished by Gauss–Newton steps. */
final class LevenbergMarquardt {

    /** @param parameters where the search came to rest */
    @SuppressWarnings("ArrayRecordComponent")
    record Found(double[] parameters, double sumOfSquares, int iterations) {}

    private static final double TOLERANCE = 1e-15;
    private static final int MOST_ITERATIONS = 5_000;
    private static final int MOST_POLISHING = 30;

    private final CurveFunction curve;
    private final double[] y;
    private final double[] roots;

    /** @param weights {@code null} for equal ones */
    LevenbergMarquardt(CurveFunction curve, double[] y, double @Nullable [] weights) {
        this.curve = curve;
        this.y = y;
        roots = new double[y.length];
        for (int i = 0; i < y.length; i++) {
            roots[i] = weights == null ? 1 : Math.sqrt(weights[i]);
        }
    }

    /** @return {@code null} if the search fails */
    @Nullable
    Found search(double[] start) {
        if (!Double.isFinite(sumOfSquares(start))) {
            return null;
        }
        try {
            MultivariateJacobianFunction model = this::evaluate;
            LeastSquaresOptimizer.Optimum optimum = new LevenbergMarquardtOptimizer(
                            100, TOLERANCE, TOLERANCE, TOLERANCE, Precision.SAFE_MIN)
                    .optimize(LeastSquaresFactory.create(
                            model,
                            new ArrayRealVector(y.length),
                            new ArrayRealVector(start),
                            null,
                            MOST_ITERATIONS,
                            MOST_ITERATIONS));
            double[] at = optimum.getPoint().toArray();
            return Double.isFinite(sumOfSquares(at)) ? new Found(at, sumOfSquares(at), optimum.getIterations()) : null;
        } catch (MathRuntimeException | IllegalArgumentException e) {
            return null;
        }
    }

    /**
     * Gauss–Newton steps in 32-digit arithmetic for as long as they shrink: the library stops when the sum of squares does
     * not change any more, at half the digits of the parameters.
     */
    Found polish(Found found) {
        double[] at = found.parameters();
        double squares = found.sumOfSquares();
        double before = Double.POSITIVE_INFINITY;
        for (int k = 0; k < MOST_POLISHING; k++) {
            @Nullable OrthogonalFactor factor = linearised(at);
            if (factor == null) {
                break;
            }
            double[] next = at.clone();
            double size = 0;
            for (int j = 0; j < at.length; j++) {
                double step = factor.coefficient(j);
                next[j] += step;
                size = Math.max(size, Math.abs(step) / Math.max(Math.abs(at[j]), Double.MIN_NORMAL));
            }
            double now = sumOfSquares(next);
            if (!(size < before) || !(now <= squares * (1 + 1e-9))) {
                break;
            }
            at = next;
            squares = now;
            before = size;
        }
        return new Found(at, squares, found.iterations());
    }

    /** The linear problem at a point; {@code null} if its derivatives are not independent. */
    @Nullable
    OrthogonalFactor linearised(double[] at) {
        int p = at.length;
        DoubleDouble[][] columns = new DoubleDouble[p][y.length];
        DoubleDouble[] rest = new DoubleDouble[y.length];
        double[] gradient = new double[p];
        for (int i = 0; i < y.length; i++) {
            double value = curve.value(i, at, gradient);
            DoubleDouble root = DoubleDouble.of(roots[i]);
            rest[i] = DoubleDouble.of(y[i]).minus(DoubleDouble.of(value)).times(root);
            for (int j = 0; j < p; j++) {
                if (!Double.isFinite(gradient[j])) {
                    return null;
                }
                columns[j][i] = DoubleDouble.of(gradient[j]).times(root);
            }
        }
        return OrthogonalFactor.of(columns, rest);
    }

    double sumOfSquares(double[] at) {
        double sum = 0;
        for (int i = 0; i < y.length; i++) {
            double r = (y[i] - curve.value(i, at, null)) * roots[i];
            sum += r * r;
        }
        return sum;
    }

    private Pair<RealVector, RealMatrix> evaluate(RealVector point) {
        double[] at = point.toArray();
        double[] values = new double[y.length];
        double[][] jacobian = new double[y.length][at.length];
        for (int i = 0; i < y.length; i++) {
            values[i] = (curve.value(i, at, jacobian[i]) - y[i]) * roots[i];
            for (int j = 0; j < at.length; j++) {
                jacobian[i][j] *= roots[i];
            }
        }
        return new Pair<>(new ArrayRealVector(values, false), new Array2DRowRealMatrix(jacobian, false));
    }
}
