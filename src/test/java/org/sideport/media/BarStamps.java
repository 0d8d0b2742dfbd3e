package org.sideport.media;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;

/** Videos whose frames bear their number as eight bars, black for 0 and white for 1, over the whole height. */
final class BarStamps {

    static final int RATE = 25;
    private static final int BARS = 8;

    private BarStamps() {}

    static Path write(Path file, int width, int height, int frames, int keyEvery) throws IOException {
        VideoOptions options =
                VideoOptions.silent(width, height, RATE * 10, 10, 28).withKeyFrameEvery(keyEvery);
        try (VideoWriter writer = VideoWriter.open(file, options)) {
            for (int n = 0; n < frames; n++) {
                writer.frame(picture(n, width, height), n * 10L);
            }
            writer.finish();
        }
        return file;
    }

    static int[] picture(int number, int width, int height) {
        int[] argb = new int[width * height];
        for (int x = 0; x < width; x++) {
            boolean one = (number >> x * BARS / width & 1) != 0;
            argb[x] = one ? 0xFFFFFFFF : 0xFF000000;
        }
        for (int y = 1; y < height; y++) {
            System.arraycopy(argb, 0, argb, y * width, width);
        }
        return argb;
    }

    static int read(FramePicture picture) {
        return read(picture, picture.height() / 2);
    }

    static int read(FramePicture picture, int row) {
        int number = 0;
        for (int bar = 0; bar < BARS; bar++) {
            int x = (2 * bar + 1) * picture.width() / (2 * BARS);
            int green = picture.bgra()[(row * picture.width() + x) * 4 + 1] & 255;
            number |= green > 127 ? 1 << bar : 0;
        }
        return number;
    }

    static boolean same(FramePicture one, FramePicture other) {
        return one.width() == other.width() && Arrays.equals(one.bgra(), other.bgra());
    }
}
