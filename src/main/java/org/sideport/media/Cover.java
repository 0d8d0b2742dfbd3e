package org.sideport.media;

import java.util.Arrays;
import java.util.List;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;

/**
 * Makes areas of decoded pictures black.
 *
 * @param areas in display pixels of the whole picture
 */
public record Cover(List<MaskArea> areas) {

    public Cover {
        areas = List.copyOf(areas);
    }

    /**
     * A copy with all black that is covered at this time; a pixel of which a part is covered is black as a whole.
     *
     * @param picture may be smaller than the recording's
     * @param height of the recording's upright picture, pixels
     * @return the picture itself where nothing is covered
     */
    public FramePicture over(FramePicture picture, int height, MediaTime at) {
        List<MaskArea> now =
                areas.stream().filter(area -> area.covers(at.micros())).toList();
        if (now.isEmpty()) {
            return picture;
        }
        double across = picture.width() / (picture.displayAspect() * height);
        double down = (double) picture.height() / height;
        byte[] bgra = picture.bgra().clone();
        for (MaskArea area : now) {
            int left = below(area.x() * across, picture.width());
            int right = above((area.x() + area.width()) * across, picture.width());
            int top = below(area.y() * down, picture.height());
            int bottom = above((area.y() + area.height()) * down, picture.height());
            for (int y = top; y < bottom; y++) {
                blacken(bgra, (y * picture.width() + left) * 4, (y * picture.width() + right) * 4);
            }
        }
        return new FramePicture(picture.width(), picture.height(), picture.displayAspect(), bgra);
    }

    private static void blacken(byte[] bgra, int from, int to) {
        if (from < to) {
            Arrays.fill(bgra, from, to, (byte) 0);
            for (int alpha = from + 3; alpha < to; alpha += 4) {
                bgra[alpha] = (byte) 255;
            }
        }
    }

    private static int below(double at, int most) {
        return (int) Math.min(most, Math.floor(at));
    }

    private static int above(double at, int most) {
        return (int) Math.min(most, Math.ceil(at));
    }
}
