package org.sideport.stats.geometry;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.SingularValueDecomposition;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * The circle that comes closest to points, in the sense of least squared distances (geometric fit of Gander, Golub &
 * Strebel 1994, BIT 34:558, section 3).
 *
 * @param covariance of centre x, centre y and radius; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record CircleFit(Circle circle, PointScatter scatter, double[][] covariance) {

    private static final int PARAMETERS = 3;
    /** A radius beyond this many times the spread of the points is a line. */
    private static final double FLAT = 1e4;

    /**
     * The algebraic fit of Gander, Golub & Strebel 1994, section 2: least {@code ‖B u‖} with {@code ‖u‖ = 1} for
     * {@code a (x² + y²) + b₁ x + b₂ y + c}. As in the paper, on the coordinates as given: the answer depends on where the
     * origin lies. For comparison; measurements come from {@link #geometric}.
     *
     * @return refused below three different points, on a line, or where the equation has no real circle
     */
    public static Outcome<Circle> algebraic(List<Point> points) {
        Refusal fault = FitCheck.fault(points, PARAMETERS, "a circle");
        if (fault != null) {
            return new Outcome.Refused<>(fault);
        }
        double[] circle =
                algebraic(points.stream().map(p -> new double[] {p.x(), p.y()}).toArray(double[][]::new));
        return circle == null
                ? Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA, "no circle solves the equation", "mark more points all round")
                : Outcome.of(new Circle(circle[0], circle[1], circle[2]));
    }

    private static double @Nullable [] algebraic(double[][] xy) {
        // a row of zeros completes three points to as many rows as columns
        double[][] b = new double[Math.max(xy.length, 4)][4];
        for (int i = 0; i < xy.length; i++) {
            b[i] = new double[] {xy[i][0] * xy[i][0] + xy[i][1] * xy[i][1], xy[i][0], xy[i][1], 1};
        }
        double[] u = new SingularValueDecomposition(new Array2DRowRealMatrix(b))
                .getV()
                .getColumn(3);
        double squared = (u[1] * u[1] + u[2] * u[2]) / (4 * u[0] * u[0]) - u[3] / u[0];
        return squared > 0 && Double.isFinite(squared)
                ? new double[] {-u[1] / (2 * u[0]), -u[2] / (2 * u[0]), Math.sqrt(squared)}
                : null;
    }

    /**
     * @param points at least three different ones, not on a line
     * @param clickSd standard deviation of a mark across the edge, in the unit of the points; {@code null} to take the
     *     scatter of the points about the circle, which asks for more than three
     * @return refused if the points do not fix a circle
     */
    public static Outcome<CircleFit> geometric(List<Point> points, @Nullable Double clickSd) {
        Refusal fault = FitCheck.fault(points, PARAMETERS, "a circle");
        if (fault != null) {
            return new Outcome.Refused<>(fault);
        }
        Frame frame = Frame.of(points);
        double[][] xy = frame.normalised(points);
        List<double[]> starts = new ArrayList<>();
        starts.add(new double[] {0, 0, 1});
        double[] algebraic = algebraic(xy);
        if (algebraic != null) {
            starts.add(algebraic);
        }
        LeastSquaresFit fit = LeastSquaresFit.of(p -> distances(xy, p), starts);
        if (fit == null || !(Math.abs(fit.parameters()[2]) < FLAT)) {
            return new Outcome.Refused<>(FitCheck.onALine("a circle"));
        }
        double scale = frame.scale();
        double[] p = fit.parameters();
        Circle circle = new Circle(frame.cx() + scale * p[0], frame.cy() + scale * p[1], scale * Math.abs(p[2]));
        return PointScatter.of(points.size(), PARAMETERS, fit.sumOfSquares() * scale * scale, clickSd)
                .map(scatter ->
                        new CircleFit(circle, scatter, scaled(fit.inverse(), scatter.clickSd() * scatter.clickSd())));
    }

    private static LeastSquaresFit.Distances distances(double[][] xy, double[] p) {
        double[] values = new double[xy.length];
        double[][] jacobian = new double[xy.length][];
        for (int i = 0; i < xy.length; i++) {
            double dx = xy[i][0] - p[0];
            double dy = xy[i][1] - p[1];
            double distance = Math.hypot(dx, dy);
            values[i] = distance - p[2];
            // at the centre itself every direction is as good as another
            jacobian[i] = distance > 0 ? new double[] {-dx / distance, -dy / distance, -1} : new double[] {-1, 0, -1};
        }
        return new LeastSquaresFit.Distances(values, jacobian);
    }

    /** Distances and lengths scale alike, so that {@code (JᵀJ)⁻¹} of the normalised points holds for the points too. */
    private static double[][] scaled(double[][] matrix, double factor) {
        double[][] scaled = new double[matrix.length][matrix.length];
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < matrix.length; j++) {
                scaled[i][j] = factor * matrix[i][j];
            }
        }
        return scaled;
    }
}
