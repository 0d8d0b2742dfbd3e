package org.sideport.media.text;

import org.sideport.model.MediaTime;

/**
 * Where writing may stand in the picture, and when. In display pixels: those of the upright picture, widened to square
 * pixels, which is what masks are given in.
 *
 * @param x of its left edge, from the left
 * @param y of its top edge, from the top
 * @param width at least 1
 * @param height at least 1
 * @param from first time at which it was seen, to about four seconds
 * @param to when it was seen last, to about four seconds
 * @param confidence 0 to 1, how long and how clearly it was seen; no probability
 */
public record TextArea(int x, int y, int width, int height, MediaTime from, MediaTime to, double confidence) {

    public TextArea {
        if (x < 0 || y < 0 || width < 1 || height < 1 || to.isBefore(from)) {
            throw new IllegalArgumentException("an area needs a place, a size and a time");
        }
        if (!(confidence >= 0 && confidence <= 1)) {
            throw new IllegalArgumentException("confidence lies in 0 to 1: " + confidence);
        }
    }
}
