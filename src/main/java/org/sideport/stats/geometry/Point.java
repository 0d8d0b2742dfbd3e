package org.sideport.stats.geometry;

/** A place on a still; both coordinates finite and in one unit, for instance pixels. */
public record Point(double x, double y) {

    public Point {
        if (!Double.isFinite(x) || !Double.isFinite(y)) {
            throw new IllegalArgumentException("(" + x + ", " + y + ") is no place");
        }
    }

    public double distance(Point other) {
        return Math.hypot(x - other.x, y - other.y);
    }
}
