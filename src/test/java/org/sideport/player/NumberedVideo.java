package org.sideport.player;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.sideport.demo.FrameStamp;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.workflow.ImportRecording;

/** Small recordings of 25 frames a second with B-frames and sound, whose pictures carry their number. */
public final class NumberedVideo {

    public static final int WIDTH = 320;
    public static final int HEIGHT = 180;

    private NumberedVideo() {}

    /** Frames {@code from} to {@code to}, exclusive; frame n of the file is shown at n times 40 ms. */
    public static Path write(Path file, int from, int to) throws IOException {
        VideoOptions options = VideoOptions.silent(WIDTH, HEIGHT, 90_000, 3600, 20)
                .withKeyFrameEvery(50)
                .withAudioRate(48_000);
        float[] sound = new float[1920];
        try (VideoWriter writer = VideoWriter.open(file, options)) {
            for (int number = from; number < to; number++) {
                writer.frame(picture(number), (number - from) * 3600L);
                writer.sound(sound);
            }
            writer.finish();
        }
        return file;
    }

    /** A bright square that wanders over grey, and the number. */
    static int[] picture(int number) {
        int[] argb = new int[WIDTH * HEIGHT];
        Arrays.fill(argb, 0xFF606060);
        int left = 20 + number * 2 % 200;
        for (int y = 40; y < 90; y++) {
            Arrays.fill(argb, y * WIDTH + left, y * WIDTH + left + 50, 0xFFD0C0A0);
        }
        FrameStamp.write(argb, WIDTH, HEIGHT, number);
        return argb;
    }

    public static Recording recording(Path... files) {
        return ImportRecording.probe(List.of(files), Progress.NONE).recording();
    }

    /** Number in a picture of the player; -1 if there is none. */
    public static int number(LivePicture picture) {
        int[] argb = new int[picture.width() * picture.height()];
        java.nio.ByteBuffer.wrap(picture.bgra())
                .order(java.nio.ByteOrder.LITTLE_ENDIAN)
                .asIntBuffer()
                .get(argb);
        return FrameStamp.read(argb, picture.width(), picture.height()).orElse(-1);
    }
}
