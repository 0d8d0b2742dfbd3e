package org.sideport.media.corpus;

import org.sideport.demo.FrameStamp;
import org.sideport.media.FramePicture;

/** Reads the number burnt into a picture. */
public final class Stamps {

    private Stamps() {}

    public static int read(FramePicture picture) {
        return read(picture, 0);
    }

    /** @param rotation clockwise degrees by which the coded picture, in which the number stands, was turned */
    static int read(FramePicture picture, int rotation) {
        int width = rotation % 180 == 0 ? picture.width() : picture.height();
        int height = rotation % 180 == 0 ? picture.height() : picture.width();
        int[] argb = new int[width * height];
        byte[] bgra = picture.bgra();
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int seenX = rotation == 0 ? x : rotation == 90 ? height - 1 - y : width - 1 - x;
                int seenY = rotation == 0 ? y : rotation == 90 ? x : height - 1 - y;
                int i = 4 * (seenY * picture.width() + seenX);
                argb[y * width + x] = (bgra[i + 2] & 255) << 16 | (bgra[i + 1] & 255) << 8 | bgra[i] & 255;
            }
        }
        return FrameStamp.read(argb, width, height).orElse(-1);
    }
}
