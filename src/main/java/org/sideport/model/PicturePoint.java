package org.sideport.model;

/**
 * A place on the displayed picture, whatever its size on the screen: 0, 0 is its top left corner and 1, 1 its bottom right
 * one, upright and with its true aspect.
 *
 * @param x share of the picture's width, 0 to 1
 * @param y share of the picture's height, 0 to 1
 */
public record PicturePoint(double x, double y) {

    public PicturePoint {
        if (!(x >= 0 && x <= 1 && y >= 0 && y <= 1)) {
            throw new IllegalArgumentException("(" + x + ", " + y + ") lies outside the picture");
        }
    }

    /** The nearest place on the picture. */
    public static PicturePoint within(double x, double y) {
        return new PicturePoint(Math.max(0, Math.min(1, x)), Math.max(0, Math.min(1, y)));
    }
}
