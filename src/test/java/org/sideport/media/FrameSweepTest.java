package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** Two files of 30 and 20 even pictures, 10 a second, a key picture every 8; the brightness of a picture tells its number. */
class FrameSweepTest {

    @TempDir
    static Path folder;

    private static List<Path> files;

    private record Seen(long frame, long startUs, long momentUs, int number) {}

    @BeforeAll
    static void write() throws IOException {
        files = List.of(write("a.mp4", 0, 30), write("b.mp4", 30, 50));
    }

    private static Path write(String name, int from, int to) throws IOException {
        Path file = folder.resolve(name);
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(96, 64, 1000, 100, 8))) {
            for (int n = from; n < to; n++) {
                int[] pixels = new int[96 * 64];
                int level = 10 + 4 * n;
                Arrays.fill(pixels, 0xFF000000 | level << 16 | level << 8 | level);
                writer.frame(pixels, (n - from) * 100L);
            }
            writer.finish();
        }
        return file;
    }

    private static List<Seen> sweep(double from, double to, long stepUs) {
        List<Seen> seen = new ArrayList<>();
        FrameSweep.sweep(
                files,
                MediaTime.ofSeconds(from),
                MediaTime.ofSeconds(to),
                stepUs,
                48,
                (scale, frame, start, moment, picture) -> {
                    assertThat(picture.width()).isEqualTo(48);
                    assertThat(picture.height()).isEqualTo(32);
                    // video range: 16 + grey * 219 / 255
                    double grey = ((picture.luma()[700] & 255) - 16) * 255 / 219.0;
                    return seen.add(new Seen(frame, start, moment, (int) Math.round((grey - 10) / 4)));
                },
                Progress.NONE);
        return seen;
    }

    @Test
    void everyFrameOfAStretchComesOnceWithItsOwnPictureAcrossTheFiles() {
        List<Seen> seen = sweep(2.05, 3.45, 0);
        assertThat(seen).hasSize(15);
        for (int i = 0; i < seen.size(); i++) {
            assertThat(seen.get(i)).isEqualTo(new Seen(20 + i, (20 + i) * 100_000L, (20 + i) * 100_000L, 20 + i));
        }
    }

    @Test
    void evenMomentsGetTheFrameOnTheScreenThen() {
        List<Seen> seen = sweep(1.05, 4, 700_000);
        // at 1.05, 1.75, 2.45, 3.15 and 3.85 s
        assertThat(seen)
                .containsExactly(
                        new Seen(10, 1_000_000, 1_050_000, 10),
                        new Seen(17, 1_700_000, 1_750_000, 17),
                        new Seen(24, 2_400_000, 2_450_000, 24),
                        new Seen(31, 3_100_000, 3_150_000, 31),
                        new Seen(38, 3_800_000, 3_850_000, 38));
    }

    @Test
    void placesGoToTheSmallPictureAndBack() {
        FrameSweep.Scale scale = new FrameSweep.Scale(704, 480, 320, 240);
        assertThat(scale.factor()).isEqualTo(2);
        // 704 stored pixels are shown as wide as 640
        assertThat(scale.stretch()).isCloseTo(1.1, within(1e-12));
        assertThat(scale.x(scale.smallX(123.4))).isCloseTo(123.4, within(1e-9));
        assertThat(scale.smallY(240)).isCloseTo(119.5, within(1e-9));
    }

    @Test
    void anEmptyStretchOrOneBeyondTheEndIsRefused() {
        assertThatThrownBy(() -> sweep(3, 3, 0))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("empty");
        assertThatThrownBy(() -> sweep(5, 6, 0))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("ends at");
    }
}
