package org.sideport.media.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CancellationException;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.MediaException;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/** Traces of recordings whose pictures are known because they were written here. */
class TracesTest {

    private static final int WIDTH = 160;
    private static final int HEIGHT = 120;

    @TempDir
    Path folder;

    /** Grey of level g (0 to 255) is coded as 16 + 219 g / 255 (ITU-R BT.601). */
    private static double coded(int grey) {
        return 16 + 219.0 * grey / 255;
    }

    /** 25 pictures a second, each 4 grey levels brighter; five moments a second see every fifth: 20 levels a step. */
    @Test
    void brightnessFollowsARampAndTheDifferenceIsItsStep() throws IOException {
        int[] greys = new int[50];
        for (int i = 0; i < greys.length; i++) {
            greys[i] = 30 + 4 * i;
        }
        Path file = write("ramp.mp4", 25, greys, i -> i);
        Traces traces = TraceComputer.compute(List.of(file), 5, Progress.NONE);
        assertThat(traces.size()).isEqualTo(10);
        assertThat(traces.durationUs()).isEqualTo(2_000_000);
        assertThat(traces.stepUs()).isEqualTo(200_000);
        for (int i = 0; i < 10; i++) {
            assertThat(traces.timeUs(i)).isEqualTo(200_000L * i);
            assertThat((double) traces.of(TraceKind.BRIGHTNESS)[i]).isCloseTo(coded(30 + 20 * i), within(1.0));
            // a ramp in space would spread; a plain picture does not
            assertThat((double) traces.of(TraceKind.CONTRAST)[i]).isLessThan(1);
        }
        assertThat(traces.of(TraceKind.DIFFERENCE)[0]).isZero();
        for (int i = 1; i < 10; i++) {
            assertThat((double) traces.of(TraceKind.DIFFERENCE)[i]).isCloseTo(219 * 20 / 255.0, within(1.5));
        }
    }

    /** As many moments as frames: each frame is seen once, in the order of display although B-frames come otherwise. */
    @Test
    void everyFrameIsSeenInItsPlace() throws IOException {
        int[] greys = new Random(3).ints(40, 20, 235).toArray();
        Path file = write("random.mp4", 20, greys, i -> i);
        Traces traces = TraceComputer.compute(List.of(file), 20, Progress.NONE);
        assertThat(traces.size()).isEqualTo(40);
        for (int i = 0; i < 40; i++) {
            assertThat((double) traces.of(TraceKind.BRIGHTNESS)[i])
                    .as("frame " + i)
                    .isCloseTo(coded(greys[i]), within(2.0));
        }
    }

    /** Frames 0 to 9 and 40 to 49 of ten a second: 3 s without one, from 1.0 s to 4.0 s. */
    @Test
    void aHoleInTheTimesIsKnownAndThePictureBeforeItStands() throws IOException {
        int[] greys = new int[20];
        Arrays.fill(greys, 0, 10, 60);
        Arrays.fill(greys, 10, 20, 180);
        Path file = write("hole.mp4", 10, greys, i -> i < 10 ? i : i + 30);
        Traces traces = TraceComputer.compute(List.of(file), 5, Progress.NONE);
        assertThat(traces.durationUs()).isEqualTo(5_000_000);
        assertThat(traces.holes()).singleElement().satisfies(hole -> {
            assertThat(hole.segment()).isZero();
            assertThat(hole.startUs()).isEqualTo(1_000_000);
            assertThat(hole.endUs()).isEqualTo(4_000_000);
        });
        float[] brightness = traces.of(TraceKind.BRIGHTNESS);
        for (int i = 0; i < 25; i++) {
            assertThat((double) brightness[i]).as("moment " + i).isCloseTo(coded(i < 20 ? 60 : 180), within(1.0));
        }
        assertThat(Findings.of(traces))
                .filteredOn(f -> f.kind() == FindingKind.FROZEN)
                .isEmpty();
    }

    /** 1.1 s and 0.9 s: moments go on over the border, where neither file has one at its own zero. */
    @Test
    void severalFilesAreOneTimeline() throws IOException {
        int[] dark = new int[11];
        int[] light = new int[9];
        Arrays.fill(dark, 50);
        Arrays.fill(light, 200);
        Path one = write("a.mp4", 10, dark, i -> i);
        Path two = write("b.mp4", 10, light, i -> i);
        Traces traces = TraceComputer.compute(List.of(one, two), 5, Progress.NONE);
        assertThat(traces.segmentStartsUs()).containsExactly(0L, 1_100_000L);
        assertThat(traces.durationUs()).isEqualTo(2_000_000);
        assertThat(traces.size()).isEqualTo(10);
        for (int i = 0; i < 10; i++) {
            assertThat((double) traces.of(TraceKind.BRIGHTNESS)[i]).isCloseTo(coded(i < 6 ? 50 : 200), within(1.0));
            assertThat(traces.segmentAt(traces.timeUs(i))).isEqualTo(i < 6 ? 0 : 1);
        }
    }

    @Test
    void cancellingEndsTheWorkAndProgressGoesUp() throws IOException {
        Path file = write("long.mp4", 25, new int[100], i -> i);
        double[] last = {-1};
        TraceComputer.compute(List.of(file), 5, (fraction, message) -> {
            if (fraction >= 0) {
                assertThat(fraction).isGreaterThanOrEqualTo(last[0]).isLessThanOrEqualTo(1);
                last[0] = fraction;
            }
        });
        assertThat(last[0]).isGreaterThan(0.9);
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String message) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        Path kept = folder.resolve("kept");
        assertThatThrownBy(() -> TraceFile.readOrCompute(kept, List.of(file), 5, cancelled))
                .isInstanceOf(CancellationException.class);
        assertThat(kept).doesNotExist();
    }

    @Test
    void badInputIsNamed() throws IOException {
        Path text = Files.writeString(folder.resolve("notes.txt"), "no video");
        assertThatThrownBy(() -> TraceComputer.compute(List.of(text), 5, Progress.NONE))
                .isInstanceOf(MediaException.class)
                .hasMessageContaining("notes.txt");
        assertThatThrownBy(() -> TraceComputer.compute(List.of(text), 0, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("--hz");
        assertThatThrownBy(() -> TraceComputer.compute(List.of(text), Double.NaN, Progress.NONE))
                .isInstanceOf(InputException.class);
    }

    /** Where the command of the same libraries is installed: its filter signalstats measures the mean brightness too. */
    @Test
    void brightnessIsThatOfSignalstats() throws Exception {
        int[] greys = new Random(9).ints(30, 0, 256).toArray();
        Path file = write("stats.mp4", 5, greys, i -> i);
        Process process;
        try {
            process = new ProcessBuilder(
                            "ffmpeg",
                            "-v",
                            "error",
                            "-i",
                            file.toString(),
                            "-vf",
                            "signalstats,metadata=print:key=lavfi.signalstats.YAVG:file=-",
                            "-f",
                            "null",
                            "-")
                    .redirectErrorStream(true)
                    .start();
        } catch (IOException e) {
            assumeTrue(false, "no ffmpeg command");
            return;
        }
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assumeTrue(process.waitFor(60, TimeUnit.SECONDS) && process.exitValue() == 0, output);
        Matcher matcher = Pattern.compile("YAVG=([0-9.]+)").matcher(output);
        Traces traces = TraceComputer.compute(List.of(file), 5, Progress.NONE);
        for (int i = 0; i < 30; i++) {
            assertThat(matcher.find()).isTrue();
            assertThat((double) traces.of(TraceKind.BRIGHTNESS)[i])
                    .isCloseTo(Double.parseDouble(matcher.group(1)), within(0.05));
        }
    }

    private Path write(String name, int fps, int[] greys, java.util.function.IntUnaryOperator place)
            throws IOException {
        Path file = folder.resolve(name);
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(WIDTH, HEIGHT, 1000, 1000 / fps, 12))) {
            for (int i = 0; i < greys.length; i++) {
                int[] pixels = new int[WIDTH * HEIGHT];
                Arrays.fill(pixels, 0xFF000000 | greys[i] * 0x010101);
                writer.frame(pixels, place.applyAsInt(i) * (1000L / fps));
            }
            writer.finish();
        }
        return file;
    }
}
