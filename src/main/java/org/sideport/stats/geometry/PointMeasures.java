package org.sideport.stats.geometry;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * What single marked points give: a distance, an angle, and size and shape of a closed line of straight sides. An error of
 * marking, alike in all directions and from point to point independent, reaches them to first order; an uncertain scale
 * adds its relative variance to lengths and nothing to ratios and angles. Limits are normal, or Student's where the error
 * of marking is estimated, as in {@link OpeningMeasures}.
 *
 * @param clickSd standard deviation of a mark along either axis, in the unit of the points, not negative
 * @param clickFreedom degrees of freedom that it was estimated with; 0 if it is known
 * @param calibration {@code null} for lengths in the unit of the points
 * @param level nominal coverage of the limits, for instance 0.95
 */
public record PointMeasures(
        double clickSd, int clickFreedom, @Nullable Calibration calibration, double level) {

    private static final double STEP = 1e-4;

    public PointMeasures {
        if (!(clickSd >= 0) || !Double.isFinite(clickSd) || clickFreedom < 0 || !(level > 0 && level < 1)) {
            throw new IllegalArgumentException("a click error of " + clickSd + ", level " + level);
        }
    }

    /** Refused if both are the same place. */
    public Outcome<Estimate> distance(Point from, Point to) {
        if (from.equals(to)) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA, "both ends are the same point", "mark two different points");
        }
        return Outcome.of(estimate(
                "straight distance",
                1,
                List.of(from, to),
                points -> points.get(0).distance(points.get(1))));
    }

    /** At {@code corner}, 0 to 180 degrees. Refused if an arm has no length. */
    public Outcome<Estimate> angle(Point arm, Point corner, Point otherArm) {
        if (corner.equals(arm) || corner.equals(otherArm)) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    "an arm of the angle has no length",
                    "mark a point on one arm, the corner, and a point on the other arm");
        }
        Estimate angle =
                estimate("angle at the second point", 0, List.of(arm, corner, otherArm), PointMeasures::degrees);
        Interval limits = angle.limits();
        return Outcome.of(
                limits == null
                        ? angle
                        : new Estimate(
                                angle.value(),
                                angle.se(),
                                new Interval(limits.lower(), Math.min(180, limits.upper()), level),
                                angle.n(),
                                angle.method(),
                                angle.warnings()));
    }

    /** Diameter of the circle with the area of the closed line. */
    public Outcome<Estimate> polygonDiameter(List<Point> corners) {
        return Polygon.of(corners)
                .map(polygon -> estimate(
                        "diameter of the circle with the polygon's area",
                        1,
                        corners,
                        points -> 2 * Math.sqrt(polygon(points).area() / Math.PI)));
    }

    /** {@code 4 π A / P²} of the closed line; of a regular one with 12 sides .977, since its sides cut the corners. */
    public Outcome<Estimate> polygonCircularity(List<Point> corners) {
        return Polygon.of(corners)
                .map(polygon -> estimate(
                        "4 pi A / P^2 of the polygon",
                        0,
                        corners,
                        points -> polygon(points).circularity()));
    }

    private static Polygon polygon(List<Point> corners) {
        return Polygon.of(corners).orElseThrow();
    }

    private static double degrees(List<Point> points) {
        Point corner = points.get(1);
        double ax = points.get(0).x() - corner.x();
        double ay = points.get(0).y() - corner.y();
        double bx = points.get(2).x() - corner.x();
        double by = points.get(2).y() - corner.y();
        return Math.toDegrees(Math.atan2(Math.abs(ax * by - ay * bx), ax * bx + ay * by));
    }

    private Estimate estimate(String method, int power, List<Point> points, ToDoubleFunction<List<Point>> measure) {
        double scale = calibration == null ? 1 : Math.pow(calibration.mmPerPx(), power);
        double relative = calibration == null ? 0 : power * calibration.relativeSd();
        double value = measure.applyAsDouble(points);
        double variance = 0;
        for (int i = 0; i < points.size(); i++) {
            double byX = slope(points, i, 1, 0, measure);
            double byY = slope(points, i, 0, 1, measure);
            variance += (byX * byX + byY * byY) * clickSd * clickSd;
        }
        double total = variance + value * value * relative * relative;
        double se = scale * Math.sqrt(total);
        double scaling = calibration == null ? 0 : power * power * calibration.estimatedRelativeVariance();
        double half = se
                * new Coverage(level, total)
                        .estimated(variance, clickFreedom)
                        .estimated(value * value * scaling, calibration == null ? 0 : calibration.freedom())
                        .factor();
        return new Estimate(
                scale * value,
                se,
                new Interval(Math.max(0, scale * value - half), scale * value + half, level),
                points.size(),
                method,
                List.of());
    }

    private static double slope(
            List<Point> points, int moved, double dx, double dy, ToDoubleFunction<List<Point>> measure) {
        return (measure.applyAsDouble(moved(points, moved, dx * STEP, dy * STEP))
                        - measure.applyAsDouble(moved(points, moved, -dx * STEP, -dy * STEP)))
                / (2 * STEP);
    }

    private static List<Point> moved(List<Point> points, int which, double dx, double dy) {
        List<Point> copy = new java.util.ArrayList<>(points);
        Point p = points.get(which);
        copy.set(which, new Point(p.x() + dx, p.y() + dy));
        return copy;
    }
}
