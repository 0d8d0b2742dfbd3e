package org.sideport.media.export;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.sideport.demo.FrameStamp;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.media.WrittenVideo;

/** Small videos whose pictures carry their number, at known times, with a sound whose beeps are at known times. */
final class Stamped {

    static final int WIDTH = 320;
    static final int HEIGHT = 180;
    static final int TIMESCALE = 90_000;
    static final int SOUND_RATE = 48_000;

    private Stamped() {}

    /** Frame times, ticks of 1/90000 s, whose distances go 40, 20, 80 ms and so on. */
    static long[] uneven(int frames) {
        int[] steps = {3600, 1800, 7200, 3600, 5400};
        long[] ticks = new long[frames];
        for (int i = 1; i < frames; i++) {
            ticks[i] = ticks[i - 1] + steps[i % steps.length];
        }
        return ticks;
    }

    /** Frame times 40 ms apart. */
    static long[] even(int frames) {
        long[] ticks = new long[frames];
        for (int i = 1; i < frames; i++) {
            ticks[i] = i * 3600L;
        }
        return ticks;
    }

    /**
     * B-frames, a key frame every 25 frames; the sound is silence but for a tone in each of the given intervals.
     *
     * @param firstNumber stamped into the first picture
     * @param beeps from, to, from, to, … in seconds; empty for a file without sound
     */
    static Path write(Path file, long[] ticks, int firstNumber, double... beeps) throws IOException {
        VideoOptions options =
                VideoOptions.silent(WIDTH, HEIGHT, TIMESCALE, 3600, 18).withKeyFrameEvery(25);
        if (beeps.length > 0) {
            options = options.withAudioRate(SOUND_RATE);
        }
        try (VideoWriter writer = VideoWriter.open(file, options)) {
            long written = 0;
            for (int i = 0; i < ticks.length; i++) {
                writer.frame(picture(firstNumber + i), ticks[i]);
                if (beeps.length > 0) {
                    long until = (i + 1 < ticks.length ? ticks[i + 1] : ticks[i] + 3600) * SOUND_RATE / TIMESCALE;
                    float[] samples = new float[(int) (until - written)];
                    for (int s = 0; s < samples.length; s++) {
                        samples[s] = tone(written + s, beeps);
                    }
                    written = until;
                    writer.sound(samples);
                }
            }
            writer.finish();
        }
        return file;
    }

    private static float tone(long sample, double[] beeps) {
        double t = sample / (double) SOUND_RATE;
        for (int b = 0; b < beeps.length; b += 2) {
            if (t >= beeps[b] && t < beeps[b + 1]) {
                return (float) (0.8 * Math.sin(2 * Math.PI * 1000 * t));
            }
        }
        return 0;
    }

    /** Grey with a bright checkered field of 80 x 40 pixels at (40, 30), which is what masks have to hide. */
    static int[] picture(int number) {
        int[] argb = new int[WIDTH * HEIGHT];
        Arrays.fill(argb, 0xFF707070);
        for (int y = 30; y < 70; y++) {
            for (int x = 40; x < 120; x++) {
                argb[y * WIDTH + x] = ((x / 8 + y / 8 + number) & 1) == 0 ? 0xFFF0E020 : 0xFF2030D0;
            }
        }
        FrameStamp.write(argb, WIDTH, HEIGHT, number);
        return argb;
    }

    static List<Integer> stamps(WrittenVideo video) {
        List<Integer> stamps = new ArrayList<>();
        for (WrittenVideo.Frame frame : video.frames()) {
            stamps.add(
                    FrameStamp.read(frame.argb(), video.width(), video.height()).orElse(-1));
        }
        return stamps;
    }

    /** Times from the first frame on, microseconds. */
    static List<Long> times(WrittenVideo video) {
        long first = video.frames().get(0).micros();
        return video.frames().stream().map(f -> f.micros() - first).toList();
    }

    static List<Long> micros(long[] ticks, int from, int to) {
        List<Long> micros = new ArrayList<>();
        for (int i = from; i < to; i++) {
            micros.add(Math.round((ticks[i] - ticks[from]) * 1e6 / TIMESCALE));
        }
        return micros;
    }
}
