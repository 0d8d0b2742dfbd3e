package org.sideport.demo;

import java.awt.geom.Point2D;

/** Sizes of the schematic eye, in mm, and where its incisions lie. Rounded figures of an ordinary adult eye. */
final class Anatomy {

    static final double LIMBUS = 5.9;
    static final double PUPIL = 3.75;
    static final double NUCLEUS = 3.95;
    static final double OPTIC = 3.0;

    /** Directions from the limbus centre, radians clockwise on the screen from the right. */
    static final double MAIN = Math.toRadians(52);

    static final double SIDE = Math.toRadians(197);

    private Anatomy() {}

    static Point2D.Double polar(double radius, double angle) {
        return new Point2D.Double(radius * Math.cos(angle), radius * Math.sin(angle));
    }
}
