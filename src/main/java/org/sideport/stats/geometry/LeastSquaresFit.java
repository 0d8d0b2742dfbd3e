package org.sideport.stats.geometry;

import java.util.function.Function;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.linear.SingularValueDecomposition;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresFactory;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;
import org.hipparchus.util.Precision;
import org.jspecify.annotations.Nullable;

/**
 * Least squares of signed distances, by Levenberg and Marquardt's method from several starts.
 *
 * @param parameters where the sum of squares is least
 * @param sumOfSquares there
 * @param inverse {@code (JᵀJ)⁻¹} there, without directions that the distances do not depend on
 */
@SuppressWarnings("ArrayRecordComponent")
record LeastSquaresFit(double[] parameters, double sumOfSquares, double[][] inverse) {

    private static final double TOLERANCE = 1e-13;
    private static final int MOST_STEPS = 1_000;
    /** Singular values below this share of the greatest belong to what the points do not fix. */
    private static final double NEGLIGIBLE = 1e-9;

    /** Distances and their derivatives by the parameters. */
    record Distances(double[] values, double[][] jacobian) {}

    /** @return the best of the starts that come to rest; {@code null} if none does */
    static @Nullable LeastSquaresFit of(Function<double[], Distances> model, Iterable<double[]> starts) {
        LeastSquaresOptimizer.@Nullable Optimum best = null;
        for (double[] start : starts) {
            try {
                LeastSquaresOptimizer.Optimum found = new LevenbergMarquardtOptimizer(
                                100, TOLERANCE, TOLERANCE, TOLERANCE, Precision.SAFE_MIN)
                        .optimize(LeastSquaresFactory.create(
                                point -> evaluate(model, point),
                                new ArrayRealVector(model.apply(start).values().length),
                                new ArrayRealVector(start),
                                null,
                                MOST_STEPS,
                                MOST_STEPS));
                if (Double.isFinite(found.getCost()) && (best == null || found.getCost() < best.getCost())) {
                    best = found;
                }
            } catch (MathRuntimeException | IllegalArgumentException e) {
                // this start leads nowhere; another may
            }
        }
        if (best == null) {
            return null;
        }
        double cost = best.getCost();
        return new LeastSquaresFit(best.getPoint().toArray(), cost * cost, inverse(best.getJacobian()));
    }

    private static Pair<RealVector, RealMatrix> evaluate(Function<double[], Distances> model, RealVector point) {
        Distances distances = model.apply(point.toArray());
        return new Pair<>(
                new ArrayRealVector(distances.values(), false), new Array2DRowRealMatrix(distances.jacobian(), false));
    }

    private static double[][] inverse(RealMatrix jacobian) {
        SingularValueDecomposition svd = new SingularValueDecomposition(jacobian);
        double[] singular = svd.getSingularValues();
        RealMatrix v = svd.getV();
        int n = v.getRowDimension();
        double[][] inverse = new double[n][n];
        for (int k = 0; k < singular.length; k++) {
            if (singular[k] <= NEGLIGIBLE * singular[0]) {
                continue;
            }
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    inverse[i][j] += v.getEntry(i, k) * v.getEntry(j, k) / (singular[k] * singular[k]);
                }
            }
        }
        return inverse;
    }
}
