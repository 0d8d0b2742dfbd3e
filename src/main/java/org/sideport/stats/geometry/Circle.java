package org.sideport.stats.geometry;

/** @param radius positive, in the unit of the coordinates */
public record Circle(double centreX, double centreY, double radius) {

    public Circle {
        if (!(radius > 0)) {
            throw new IllegalArgumentException("radius " + radius);
        }
    }

    public Point centre() {
        return new Point(centreX, centreY);
    }
}
