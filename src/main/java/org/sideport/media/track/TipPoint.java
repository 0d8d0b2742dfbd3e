package org.sideport.media.track;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.geometry.Point;

/**
 * The tip in one frame. Places are in pixels from the top left corner of the recording's pictures, counted down the height.
 *
 * @param frame number in the recording, from 0
 * @param timeUs when the frame comes on the screen, microseconds on the recording's timeline
 * @param quality share of the followed patches that agree on the movement from the frame before, 0 to 1; 1 where it was
 *     pointed at
 * @param eye limbus centre then, {@code null} where it is not known
 */
public record TipPoint(
        long frame,
        long timeUs,
        Point place,
        double quality,
        @Nullable Point eye) {}
