package org.sideport.media.track;

import org.sideport.stats.geometry.Ellipse;

/**
 * A round edge of the eye as found in one picture, in pixels of the recording counted down the picture's height (pixels that
 * are not square are made so).
 *
 * @param ellipse the edge; its centre is measured from the top left corner
 * @param confidence share of the whole circumference on which the edge was seen, 0 to 1
 */
public record EyeEdge(Ellipse ellipse, double confidence) {

    public EyeEdge {
        if (!(confidence >= 0 && confidence <= 1)) {
            throw new IllegalArgumentException("confidence " + confidence);
        }
    }

    /** Of the circle with the same area. */
    public double diameter() {
        return ellipse.equivalentDiameter();
    }
}
