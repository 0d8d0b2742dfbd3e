package org.sideport.stats.geometry;

import java.util.List;

/**
 * Moves points to their mean and divides them by their root mean square distance from it, so that a fit does not depend on
 * where the points lie and how large they are, and powers of coordinates keep their digits.
 *
 * @param narrowness root of the ratio of the spreads across and along the points' main direction: 0 on a line, 1 all round
 * @param direction of the points' greatest spread from the x axis towards the y axis, radians
 */
record Frame(double cx, double cy, double scale, double narrowness, double direction) {

    static Frame of(List<Point> points) {
        int n = points.size();
        double cx = points.stream().mapToDouble(Point::x).average().orElse(0);
        double cy = points.stream().mapToDouble(Point::y).average().orElse(0);
        double xx = 0;
        double yy = 0;
        double xy = 0;
        for (Point p : points) {
            double dx = p.x() - cx;
            double dy = p.y() - cy;
            xx += dx * dx;
            yy += dy * dy;
            xy += dx * dy;
        }
        double half = (xx + yy) / 2;
        double root = Math.hypot((xx - yy) / 2, xy);
        double across = Math.max(0, half - root);
        double narrowness = half > 0 ? Math.sqrt(across / (half + root)) : 0;
        return new Frame(cx, cy, Math.sqrt((xx + yy) / n), narrowness, Math.atan2(2 * xy, xx - yy) / 2);
    }

    double[][] normalised(List<Point> points) {
        return points.stream()
                .map(p -> new double[] {(p.x() - cx) / scale, (p.y() - cy) / scale})
                .toArray(double[][]::new);
    }
}
