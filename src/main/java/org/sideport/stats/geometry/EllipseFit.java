package org.sideport.stats.geometry;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.complex.Complex;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.EigenDecompositionNonSymmetric;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * The ellipse that comes closest to points, in the sense of least squared distances (geometric fit of Gander, Golub &
 * Strebel 1994, BIT 34:558, section 5).
 *
 * @param covariance of centre x, centre y, the logarithms of the longer and the shorter semi-axis, and the angle; where
 *     the axes are nearly equal the angle is not fixed by the points, and its entries mean nothing; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record EllipseFit(Ellipse ellipse, PointScatter scatter, double[][] covariance) {

    private static final int PARAMETERS = 5;
    /** Axes beyond this many times the spread of the points belong to a parabola or a line. */
    private static final double FLAT = 1e4;

    /**
     * The direct fit of Fitzgibbon, Pilu & Fisher 1999, IEEE Transactions on Pattern Analysis and Machine Intelligence
     * 21:476, least algebraic distance with {@code 4 A C − B² = 1}, in the stable form of Halíř & Flusser 1998 (WSCG). Always
     * an ellipse, moved with the points it moves along, but biased to small and round ones if the points are noisy or
     * cover an arc only. A start for {@link #geometric}.
     *
     * @return refused below five different points or where they do not fix an ellipse
     */
    public static Outcome<Ellipse> direct(List<Point> points) {
        Refusal fault = FitCheck.fault(points, PARAMETERS, "an ellipse");
        if (fault != null) {
            return new Outcome.Refused<>(fault);
        }
        Frame frame = Frame.of(points);
        double[] p = direct(frame.normalised(points));
        return p == null ? new Outcome.Refused<>(notAnEllipse()) : Outcome.of(placed(frame, p));
    }

    private static Refusal notAnEllipse() {
        return new Refusal(
                Refusal.Reason.NOT_IDENTIFIED,
                "the points do not fix an ellipse: they follow a line, an open curve or too short an arc",
                "mark points all round the edge");
    }

    private static Ellipse placed(Frame frame, double[] p) {
        return Ellipse.of(
                frame.cx() + frame.scale() * p[0],
                frame.cy() + frame.scale() * p[1],
                frame.scale() * Math.exp(p[2]),
                frame.scale() * Math.exp(p[3]),
                p[4]);
    }

    /** @return centre x, centre y, log a, log b, angle */
    private static double @Nullable [] direct(double[][] xy) {
        double[][] quadratic = new double[xy.length][];
        double[][] linear = new double[xy.length][];
        for (int i = 0; i < xy.length; i++) {
            double x = xy[i][0];
            double y = xy[i][1];
            quadratic[i] = new double[] {x * x, x * y, y * y};
            linear[i] = new double[] {x, y, 1};
        }
        RealMatrix d1 = new Array2DRowRealMatrix(quadratic);
        RealMatrix d2 = new Array2DRowRealMatrix(linear);
        RealMatrix s1 = d1.transposeMultiply(d1);
        RealMatrix s2 = d1.transposeMultiply(d2);
        RealMatrix s3 = d2.transposeMultiply(d2);
        try {
            RealMatrix t =
                    new LUDecomposition(s3).getSolver().solve(s2.transpose()).scalarMultiply(-1);
            double[][] m = s1.add(s2.multiply(t)).getData();
            double[][] reduced = {
                {m[2][0] / 2, m[2][1] / 2, m[2][2] / 2},
                {-m[1][0], -m[1][1], -m[1][2]},
                {m[0][0] / 2, m[0][1] / 2, m[0][2] / 2}
            };
            EigenDecompositionNonSymmetric eigen =
                    new EigenDecompositionNonSymmetric(new Array2DRowRealMatrix(reduced));
            double best = 0;
            double[] conic = new double[3];
            for (int k = 0; k < 3; k++) {
                Complex[] v = eigen.getEigenvector(k).toArray();
                double a = v[0].getReal();
                double b = v[1].getReal();
                double c = v[2].getReal();
                double ellipticity = 4 * a * c - b * b;
                if (ellipticity > best) {
                    best = ellipticity;
                    conic = new double[] {a, b, c};
                }
            }
            return best > 0 ? parameters(conic, t.operate(conic)) : null;
        } catch (MathRuntimeException e) {
            return null;
        }
    }

    private static double @Nullable [] parameters(double[] quadratic, double[] linear) {
        double a = quadratic[0];
        double b = quadratic[1];
        double c = quadratic[2];
        double determinant = 4 * a * c - b * b;
        double cx = (b * linear[1] - 2 * c * linear[0]) / determinant;
        double cy = (b * linear[0] - 2 * a * linear[1]) / determinant;
        double constant = linear[2] + (linear[0] * cx + linear[1] * cy) / 2;
        double mean = (a + c) / 2;
        double half = Math.hypot((a - c) / 2, b / 2);
        // the eigenvalue of smaller size belongs to the longer axis
        double sign = Math.signum(mean);
        double longSquare = -constant / (mean - sign * half);
        double shortSquare = -constant / (mean + sign * half);
        if (!(longSquare > 0 && shortSquare > 0 && longSquare < FLAT * FLAT)) {
            return null;
        }
        double angle = Math.atan2(-sign * b, -sign * (a - c)) / 2;
        return new double[] {cx, cy, Math.log(longSquare) / 2, Math.log(shortSquare) / 2, angle};
    }

    /**
     * @param points at least five different ones, best ten or more all round
     * @param clickSd standard deviation of a mark across the edge, in the unit of the points; {@code null} to take the
     *     scatter of the points about the ellipse, which asks for more than five
     * @return refused if the points do not fix an ellipse
     */
    public static Outcome<EllipseFit> geometric(List<Point> points, @Nullable Double clickSd) {
        Refusal fault = FitCheck.fault(points, PARAMETERS, "an ellipse");
        if (fault != null) {
            return new Outcome.Refused<>(fault);
        }
        Frame frame = Frame.of(points);
        double[][] xy = frame.normalised(points);
        LeastSquaresFit fit = LeastSquaresFit.of(p -> EllipseDistance.of(xy, p), starts(frame, xy));
        if (fit == null || Math.max(fit.parameters()[2], fit.parameters()[3]) > Math.log(FLAT)) {
            return new Outcome.Refused<>(notAnEllipse());
        }
        double scale = frame.scale();
        return PointScatter.of(points.size(), PARAMETERS, fit.sumOfSquares() * scale * scale, clickSd)
                .map(scatter -> new EllipseFit(
                        placed(frame, fit.parameters()), scatter, covariance(fit, scale, scatter.clickSd())));
    }

    /** The direct fit, and ovals long along and long across the points' main direction. */
    private static List<double[]> starts(Frame frame, double[][] xy) {
        List<double[]> starts = new ArrayList<>();
        double[] direct = direct(xy);
        if (direct != null) {
            starts.add(direct);
        }
        starts.add(new double[] {0, 0, 0.2, -0.2, frame.direction()});
        starts.add(new double[] {0, 0, -0.2, 0.2, frame.direction()});
        return starts;
    }

    /** Lengths in the unit of the points, logarithms and angle without unit; the longer axis first. */
    private static double[][] covariance(LeastSquaresFit fit, double scale, double sd) {
        boolean turned = fit.parameters()[3] > fit.parameters()[2];
        int[] order = turned ? new int[] {0, 1, 3, 2, 4} : new int[] {0, 1, 2, 3, 4};
        double[] unit = {sd, sd, sd / scale, sd / scale, sd / scale};
        double[][] covariance = new double[PARAMETERS][PARAMETERS];
        for (int i = 0; i < PARAMETERS; i++) {
            for (int j = 0; j < PARAMETERS; j++) {
                covariance[i][j] = fit.inverse()[order[i]][order[j]] * unit[i] * unit[j];
            }
        }
        return covariance;
    }
}
