package org.sideport.media.track;

import java.util.List;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.Ellipse;
import org.sideport.stats.geometry.EllipseFit;
import org.sideport.stats.geometry.Point;

/**
 * The nearly round ellipse on which most of the points lie: circles through three points drawn at random (M. A. Fischler, R.
 * C. Bolles, Random sample consensus, Communications of the ACM 24 (1981) 381–395), then {@link EllipseFit#direct} and
 * {@link EllipseFit#geometric} on those that agree. The draw is the same each time.
 */
final class RobustEllipse {

    private static final int DRAWS = 150;
    private static final double ROUGH = 0.06;
    private static final double FINE = 0.03;

    /** Closer than this an edge cannot be placed, pixels. */
    private static final double LEAST_TOLERANCE = 1.5;

    private static final double LEAST_AXIS_RATIO = 0.75;
    private static final int LEAST_POINTS = 12;

    private RobustEllipse() {}

    /** @param inliers how many of the points lie within 3 % of the radius or 1.5 pixels */
    record Found(Ellipse ellipse, int inliers) {}

    /**
     * @param least and {@code most} radius that is believed
     * @return {@code null} if no such ellipse is there
     */
    static @Nullable Found fit(List<Point> points, double least, double most) {
        if (points.size() < LEAST_POINTS) {
            return null;
        }
        Ellipse ellipse = bestCircle(points, least, most);
        if (ellipse == null) {
            return null;
        }
        double[] tolerances = {ROUGH, (ROUGH + FINE) / 2, FINE};
        for (double tolerance : tolerances) {
            Ellipse next = refit(near(points, ellipse, tolerance), tolerance == FINE);
            if (next == null || next.axisRatio() < LEAST_AXIS_RATIO) {
                return null;
            }
            ellipse = next;
        }
        double radius = ellipse.equivalentDiameter() / 2;
        return radius < least || radius > most
                ? null
                : new Found(ellipse, near(points, ellipse, FINE).size());
    }

    private static @Nullable Ellipse refit(List<Point> points, boolean last) {
        if (points.size() < LEAST_POINTS) {
            return null;
        }
        if (last && EllipseFit.geometric(points, null) instanceof Outcome.Found<EllipseFit> found) {
            return found.value().ellipse();
        }
        return EllipseFit.direct(points) instanceof Outcome.Found<Ellipse> found ? found.value() : null;
    }

    private static @Nullable Ellipse bestCircle(List<Point> points, double least, double most) {
        SplittableRandom random = new SplittableRandom(points.size());
        Ellipse best = null;
        int agreed = 0;
        for (int draw = 0; draw < DRAWS; draw++) {
            Ellipse circle = through(
                    points.get(random.nextInt(points.size())),
                    points.get(random.nextInt(points.size())),
                    points.get(random.nextInt(points.size())));
            if (circle == null || circle.semiMajor() < least || circle.semiMajor() > most) {
                continue;
            }
            int agree = near(points, circle, ROUGH).size();
            if (agree > agreed) {
                agreed = agree;
                best = circle;
            }
        }
        return best;
    }

    private static @Nullable Ellipse through(Point a, Point b, Point c) {
        double bx = b.x() - a.x();
        double by = b.y() - a.y();
        double cx = c.x() - a.x();
        double cy = c.y() - a.y();
        double d = 2 * (bx * cy - by * cx);
        if (Math.abs(d) < 1e-6) {
            return null;
        }
        double ux = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / d;
        double uy = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / d;
        double r = Math.hypot(ux, uy);
        return new Ellipse(a.x() + ux, a.y() + uy, r, r, 0);
    }

    /** Those whose distance along the ray from the centre is within the tolerance, a share of the radius. */
    private static List<Point> near(List<Point> points, Ellipse e, double tolerance) {
        double cos = Math.cos(e.angle());
        double sin = Math.sin(e.angle());
        double allowed = Math.max(tolerance, LEAST_TOLERANCE / e.semiMajor());
        return points.stream()
                .filter(p -> {
                    double dx = p.x() - e.centreX();
                    double dy = p.y() - e.centreY();
                    double u = (cos * dx + sin * dy) / e.semiMajor();
                    double v = (-sin * dx + cos * dy) / e.semiMinor();
                    return Math.abs(Math.hypot(u, v) - 1) <= allowed;
                })
                .toList();
    }
}
