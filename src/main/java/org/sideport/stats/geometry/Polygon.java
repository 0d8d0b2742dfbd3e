package org.sideport.stats.geometry;

import java.util.List;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * A closed line through points in order, for an edge that is neither a circle nor an ellipse.
 *
 * @param area positive, whichever way round
 * @param perimeter of the straight sides: an edge marked with few points comes out too short
 */
public record Polygon(int corners, double area, double perimeter) {

    /**
     * @param points in order along the edge; the last joins the first
     * @return refused below three points, if sides cross each other, or without area
     */
    public static Outcome<Polygon> of(List<Point> points) {
        int n = points.size();
        if (points.stream().distinct().count() < 3) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "a closed line needs three different points, and there are "
                            + points.stream().distinct().count(),
                    "mark more points along the edge");
        }
        for (int i = 0; i < n; i++) {
            for (int j = i + 2; j < n; j++) {
                if (i == 0 && j == n - 1) {
                    continue;
                }
                if (cross(points.get(i), points.get(i + 1), points.get(j), points.get((j + 1) % n))) {
                    return Outcome.refused(
                            Refusal.Reason.UNSUITABLE_DATA,
                            "the side from point " + (i + 1) + " to " + (i + 2) + " crosses that from " + (j + 1)
                                    + " to " + ((j + 1) % n + 1),
                            "give the points in their order along the edge");
                }
            }
        }
        Point origin = points.get(0);
        double twice = 0;
        double perimeter = 0;
        for (int i = 0; i < n; i++) {
            Point p = points.get(i);
            Point q = points.get((i + 1) % n);
            // from the first corner, so that far-away coordinates keep their digits
            twice += (p.x() - origin.x()) * (q.y() - origin.y()) - (q.x() - origin.x()) * (p.y() - origin.y());
            perimeter += p.distance(q);
        }
        double area = Math.abs(twice) / 2;
        if (!(area > 1e-12 * perimeter * perimeter)) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA, "the points enclose no area", "mark points around the opening");
        }
        return Outcome.of(new Polygon(n, area, perimeter));
    }

    /** {@code 4 π A / P²}: circle 1, regular hexagon .9069, square .7854. */
    public double circularity() {
        return 4 * Math.PI * area / (perimeter * perimeter);
    }

    /** Whether two sides have an inner point in common. */
    private static boolean cross(Point a, Point b, Point c, Point d) {
        return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
    }

    private static double side(Point a, Point b, Point p) {
        return Math.signum((b.x() - a.x()) * (p.y() - a.y()) - (b.y() - a.y()) * (p.x() - a.x()));
    }
}
