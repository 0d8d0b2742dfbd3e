package org.sideport.stats.geometry;

/**
 * Signed distances of points from an ellipse, positive outside, with their derivatives by centre, logarithms of the
 * semi-axes and angle. A small change of the ellipse moves the distance by its movement along the normal at the foot point.
 */
final class EllipseDistance {

    private EllipseDistance() {}

    /** @param p centre x, centre y, log a, log b, angle; a may be the shorter */
    static LeastSquaresFit.Distances of(double[][] xy, double[] p) {
        double a = Math.exp(p[2]);
        double b = Math.exp(p[3]);
        if (!(a > 1e-12 && b > 1e-12 && a < 1e12 && b < 1e12)) {
            throw new IllegalArgumentException("semi-axes " + a + " and " + b);
        }
        double cos = Math.cos(p[4]);
        double sin = Math.sin(p[4]);
        double[] values = new double[xy.length];
        double[][] jacobian = new double[xy.length][];
        for (int i = 0; i < xy.length; i++) {
            double dx = xy[i][0] - p[0];
            double dy = xy[i][1] - p[1];
            double x = cos * dx + sin * dy;
            double y = -sin * dx + cos * dy;
            double[] foot = foot(a, b, x, y);
            double nx = foot[0] / (a * a);
            double ny = foot[1] / (b * b);
            double length = Math.hypot(nx, ny);
            nx /= length;
            ny /= length;
            values[i] = nx * (x - foot[0]) + ny * (y - foot[1]);
            jacobian[i] = new double[] {
                -(cos * nx - sin * ny),
                -(sin * nx + cos * ny),
                -nx * foot[0],
                -ny * foot[1],
                nx * foot[1] - ny * foot[0]
            };
        }
        return new LeastSquaresFit.Distances(values, jacobian);
    }

    /** The nearest point of the ellipse {@code (x/a)² + (y/b)² = 1}. */
    static double[] foot(double a, double b, double x, double y) {
        if (a < b) {
            double[] turned = foot(b, a, y, x);
            return new double[] {turned[1], turned[0]};
        }
        double[] foot = quadrant(a, b, Math.abs(x), Math.abs(y));
        return new double[] {Math.copySign(foot[0], x), Math.copySign(foot[1], y)};
    }

    /**
     * For {@code a ≥ b} and {@code x, y ≥ 0}. The foot is {@code (a² x / (t + a²), b² y / (t + b²))} with {@code t} the
     * greatest root of a function that falls and is convex right of its pole, so that Newton's steps from a place where it
     * is not negative climb to the root without passing it.
     */
    private static double[] quadrant(double a, double b, double x, double y) {
        double ratio = a / b * (a / b);
        double zx = x / a;
        double zy = y / b;
        if (zy == 0) {
            double reach = x * a / ((a - b) * (a + b));
            // between the centres of curvature the nearest point lies off the axis
            return a > b && reach < 1
                    ? new double[] {a * reach, b * Math.sqrt((1 - reach) * (1 + reach))}
                    : new double[] {a, 0};
        }
        double s = Math.max(zy - 1, ratio * (zx - 1));
        for (int step = 0; step < 200; step++) {
            double u = ratio * zx / (s + ratio);
            double v = zy / (s + 1);
            double excess = u * u + v * v - 1;
            double slope = -2 * (u * u / (s + ratio) + v * v / (s + 1));
            double next = s - excess / slope;
            if (!(next > s)) {
                break;
            }
            s = next;
        }
        return new double[] {a * ratio * zx / (s + ratio), b * zy / (s + 1)};
    }
}
