package org.sideport.media.track;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.media.track.TipTrack.Reason;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/**
 * A bar with a dark end goes once round a circle over a still, textured ground, 25 pictures a second; then a filter makes
 * everything darker, it stands still for a second, and is gone.
 */
class TipTrackerTest {

    private static final int WIDTH = 320;
    private static final int HEIGHT = 240;
    private static final int ROUND = 75;
    private static final int STILL = 25;
    private static final int GONE = 10;
    private static final double RADIUS = 50;

    @TempDir
    static Path folder;

    private static Path file;

    private static double tipX(int frame) {
        return 160 + RADIUS * Math.cos(2 * Math.PI * Math.min(frame, ROUND) / ROUND);
    }

    private static double tipY(int frame) {
        return 120 + RADIUS * Math.sin(2 * Math.PI * Math.min(frame, ROUND) / ROUND);
    }

    @BeforeAll
    static void write() throws IOException {
        file = folder.resolve("tip.mp4");
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(WIDTH, HEIGHT, 1000, 40, 25))) {
            for (int n = 0; n < ROUND + STILL + GONE; n++) {
                writer.frame(picture(n), n * 40L);
            }
            writer.finish();
        }
    }

    /** The bar comes from the lower right; its last 8 pixels are dark. */
    private static int[] picture(int n) {
        int[] pixels = new int[WIDTH * HEIGHT];
        double c = Math.cos(0.8);
        double s = Math.sin(0.8);
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                double ground = 150 + 12 * Math.sin(0.11 * x + 0.07 * y) + 10 * Math.sin(0.05 * x - 0.13 * y);
                double dx = x + 0.5 - tipX(n);
                double dy = y + 0.5 - tipY(n);
                double along = c * dx + s * dy;
                double across = -s * dx + c * dy;
                double bar = cover(along) * cover(5 - Math.abs(across));
                double level = along < 8 ? 30 : 235 - 8 * Math.abs(across);
                double value = n < ROUND + STILL ? ground + bar * (level - ground) : ground;
                int grey = (int) Math.round(n < 40 ? value : 0.6 * value);
                pixels[y * WIDTH + x] = 0xFF000000 | grey << 16 | grey << 8 | grey;
            }
        }
        return pixels;
    }

    private static double cover(double inside) {
        return Math.max(0, Math.min(1, inside + 0.5));
    }

    private static TipTrack track(double until) {
        return TipTracker.track(
                List.of(file), MediaTime.ZERO, tipX(0), tipY(0), MediaTime.ofSeconds(until), Progress.NONE);
    }

    @Test
    void theTipIsFollowedThroughAChangeOfLightAndItsPathIsTheCircle() {
        TipTrack track = track(4);
        assertThat(track.lost()).isNull();
        assertThat(track.points()).hasSize(ROUND + STILL);
        double[] errors = track.points().stream()
                .mapToDouble(p -> Math.hypot(
                        p.place().x() - tipX((int) p.frame()), p.place().y() - tipY((int) p.frame())))
                .sorted()
                .toArray();
        assertThat(errors[errors.length / 2]).as("median error, pixels").isLessThan(0.3);
        assertThat(errors[(int) (0.95 * errors.length)]).as("95th percentile").isLessThan(0.8);
        TipMeasures measures = TipMeasures.of(track, MotionSettings.usual(20));
        assertThat(measures.inPicture()).isNotNull();
        // once round: 2π · 50
        assertThat(measures.inPicture().pathLength()).isCloseTo(2 * Math.PI * RADIUS, Percentage.withPercentage(2));
        assertThat(measures.inPicture().movements()).hasSize(1);
        assertThat(measures.toEye()).as("no eye is in these pictures").isNull();
    }

    @Test
    void aTipThatIsGoneIsLostInThatFrameAndNothingIsFilledIn() {
        TipTrack track = track(100);
        assertThat(track.lost()).isNotNull();
        assertThat(track.lost().timeUs()).isEqualTo((ROUND + STILL) * 40_000L);
        assertThat(track.points()).hasSize(ROUND + STILL);
        assertThat(track.endUs()).isEqualTo((ROUND + STILL + GONE) * 40_000L);
    }

    @Test
    void whereThereIsNothingToHoldOnToItSaysSo() throws IOException {
        Path even = folder.resolve("even.mp4");
        try (VideoWriter writer = VideoWriter.open(even, VideoOptions.silent(WIDTH, HEIGHT, 1000, 40, 25))) {
            for (int n = 0; n < 5; n++) {
                int[] grey = new int[WIDTH * HEIGHT];
                java.util.Arrays.fill(grey, 0xFF808080);
                writer.frame(grey, n * 40L);
            }
            writer.finish();
        }
        TipTrack track =
                TipTracker.track(List.of(even), MediaTime.ZERO, 100, 100, MediaTime.ofSeconds(1), Progress.NONE);
        assertThat(track.lost()).isEqualTo(new TipTrack.Lost(0, Reason.NO_STRUCTURE));
        assertThat(track.points()).hasSize(1);
    }

    @Test
    void theTrackBeginsInTheFrameOnTheScreenThen() {
        TipTrack track = TipTracker.track(
                List.of(file),
                MediaTime.ofMicros(1_019_000),
                tipX(25),
                tipY(25),
                MediaTime.ofSeconds(2),
                Progress.NONE);
        assertThat(track.points().get(0).frame()).isEqualTo(25);
        assertThat(track.points().get(0).timeUs()).isEqualTo(1_000_000);
        assertThat(track.points()).hasSize(25);
        assertThat(track.points().get(0).place().x()).isCloseTo(tipX(25), within(1e-9));
    }

    @Test
    void whatCannotBeTrackedIsRefused() {
        assertThatThrownBy(() ->
                        TipTracker.track(List.of(file), MediaTime.ZERO, 321, 5, MediaTime.ofSeconds(1), Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("320x240");
        assertThatThrownBy(() -> TipTracker.track(
                        List.of(file), MediaTime.ofSeconds(9), 3, 5, MediaTime.ofSeconds(10), Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("ends at");
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String message) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThatThrownBy(
                        () -> TipTracker.track(List.of(file), MediaTime.ZERO, 3, 5, MediaTime.ofSeconds(1), cancelled))
                .isInstanceOf(CancellationException.class);
    }

    /** Each of 60 tracks decodes several pictures of 115 kB: kept, they would add up to far more than the limit. */
    @Test
    void manyTracksDoNotEatMemory() throws IOException {
        Path status = Path.of("/proc/self/statm");
        Assumptions.assumeTrue(Files.isReadable(status), "no /proc here");
        for (int k = 0; k < 15; k++) {
            track(0.3);
        }
        long before = residentPages(status);
        for (int k = 0; k < 60; k++) {
            track(0.3);
        }
        assertThat((residentPages(status) - before) * 4096L).isLessThan(60L * 1024 * 1024);
    }

    private static long residentPages(Path status) throws IOException {
        System.gc();
        return Long.parseLong(Files.readString(status).split(" ")[1]);
    }
}
