package org.sideport.app.picture;

import java.io.IOException;
import java.nio.file.Path;
import java.util.SplittableRandom;
import org.sideport.demo.FrameStamp;
import org.sideport.media.FramePicture;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.model.MediaTime;

/**
 * A drawn recording for measuring playback, whose pictures carry their number along the bottom edge. It drifts slowly
 * all the time, under grain, but for a stretch that stands still; the number, which no real picture has, can be painted
 * over.
 */
final class StampedVideo {

    static final int WIDTH = 640;
    static final int HEIGHT = 360;
    static final int TICKS = 90_000;
    static final int FRAME_TICKS = 3600;
    static final long FRAME_US = 40_000;

    /** Rows from the bottom that the number and its coding traces take up. */
    private static final int STAMP_ROWS = 32;

    private StampedVideo() {}

    /**
     * Writes frames {@code from} to {@code to}, exclusive, into one file: 25 a second, with sound.
     *
     * @param stillFrom first frame of the stretch that stands still
     * @param stillTo frame after it
     */
    static void write(Path file, int from, int to, int stillFrom, int stillTo) throws IOException {
        VideoOptions options = VideoOptions.silent(WIDTH, HEIGHT, TICKS, FRAME_TICKS, 20)
                .withKeyFrameEvery(125)
                .withAudioRate(48_000);
        float[] sound = new float[48_000 / 25];
        try (VideoWriter writer = VideoWriter.open(file, options)) {
            for (int number = from; number < to; number++) {
                int scene = number >= stillFrom && number < stillTo ? stillFrom : number;
                writer.frame(picture(number, scene), (long) (number - from) * FRAME_TICKS);
                writer.sound(sound);
            }
            writer.finish();
        }
    }

    private static int[] picture(int number, int scene) {
        int[] argb = new int[WIDTH * HEIGHT];
        SplittableRandom grain = new SplittableRandom(scene);
        double centreX = WIDTH / 2.0 + 40 * Math.sin(scene / 60.0);
        double centreY = HEIGHT / 2.0 + 25 * Math.sin(scene / 47.0 + 1);
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                double radius = Math.hypot(x - centreX, y - centreY);
                int grey = radius < 60 ? 40 : radius < 130 ? 120 + (int) (20 * Math.sin(radius / 4)) : 170;
                grey += (grain.nextInt() & 7) - 3;
                argb[y * WIDTH + x] = 0xFF000000 | grey << 16 | (grey * 3 / 4) << 8 | (grey / 2);
            }
        }
        FrameStamp.write(argb, WIDTH, HEIGHT, number);
        return argb;
    }

    /** Number in the picture; -1 if it cannot be read. */
    static int number(int width, int height, byte[] bgra) {
        int[] argb = new int[width * height];
        java.nio.ByteBuffer.wrap(bgra)
                .order(java.nio.ByteOrder.LITTLE_ENDIAN)
                .asIntBuffer()
                .get(argb);
        return FrameStamp.read(argb, width, height).orElse(-1);
    }

    static byte[] withoutNumber(int width, int height, byte[] bgra) {
        byte[] plain = bgra.clone();
        java.util.Arrays.fill(plain, width * (height - STAMP_ROWS) * 4, plain.length, (byte) 128);
        return plain;
    }

    static FramePicture withoutNumber(FramePicture picture) {
        return new FramePicture(
                picture.width(),
                picture.height(),
                picture.displayAspect(),
                withoutNumber(picture.width(), picture.height(), picture.bgra()));
    }

    static MediaTime startOf(int number) {
        return MediaTime.ofMicros(number * FRAME_US);
    }
}
