package org.sideport.stats.geometry;

import org.hipparchus.special.elliptic.legendre.LegendreEllipticIntegral;

/**
 * @param semiMajor half the longer axis, at least {@code semiMinor}
 * @param semiMinor half the shorter axis, positive
 * @param angle of the longer axis from the x axis towards the y axis, radians, 0 to below π; on a still, where y runs
 *     downwards, that is clockwise. Without meaning if the axes are equal.
 */
public record Ellipse(double centreX, double centreY, double semiMajor, double semiMinor, double angle) {

    public Ellipse {
        if (!(semiMinor > 0 && semiMajor >= semiMinor)) {
            throw new IllegalArgumentException("semi-axes " + semiMajor + " and " + semiMinor);
        }
    }

    /** With the axes in either order and any angle. */
    static Ellipse of(double centreX, double centreY, double a, double b, double angle) {
        double turned = (a >= b ? angle : angle + Math.PI / 2) % Math.PI;
        double within = turned < 0 ? turned + Math.PI : turned;
        // a tiny negative angle plus π rounds to π
        return new Ellipse(centreX, centreY, Math.max(a, b), Math.min(a, b), within >= Math.PI ? 0 : within);
    }

    public Point centre() {
        return new Point(centreX, centreY);
    }

    public double area() {
        return Math.PI * semiMajor * semiMinor;
    }

    /** Exact, {@code 4 a E(1 − b²/a²)} with the complete elliptic integral of the second kind. */
    public double perimeter() {
        return perimeter(semiMajor, semiMinor);
    }

    static double perimeter(double a, double b) {
        double long_ = Math.max(a, b);
        double ratio = Math.min(a, b) / long_;
        return 4 * long_ * LegendreEllipticIntegral.bigE((1 - ratio) * (1 + ratio));
    }

    /**
     * Ramanujan 1914, Quarterly Journal of Mathematics 45:350, second formula,
     * {@code π (a + b) (1 + 3 h / (10 + √(4 − 3 h)))} with {@code h = ((a − b)/(a + b))²}: what spreadsheets use; off by
     * less than a millionth down to axes of 1 to 5.
     */
    public double perimeterRamanujan() {
        double sum = semiMajor + semiMinor;
        double h = (semiMajor - semiMinor) * (semiMajor - semiMinor) / (sum * sum);
        return Math.PI * sum * (1 + 3 * h / (10 + Math.sqrt(4 - 3 * h)));
    }

    /** {@code 4 π A / P²}: 1 for a circle. Insensitive to a slight oval: see {@link #axisRatio}. */
    public double circularity() {
        double perimeter = perimeter();
        return 4 * Math.PI * area() / (perimeter * perimeter);
    }

    /** Shorter over longer axis, 0 to 1. */
    public double axisRatio() {
        return semiMinor / semiMajor;
    }

    /** Of the circle with the same area. */
    public double equivalentDiameter() {
        return 2 * Math.sqrt(semiMajor * semiMinor);
    }
}
