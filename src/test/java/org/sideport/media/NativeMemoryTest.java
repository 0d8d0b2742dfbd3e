package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.OwnProcess;
import org.sideport.media.measure.LongVideo;
import org.sideport.model.Progress;

/**
 * Memory of a process of its own, whose Java heap has a fixed size, over many openings. One decoded picture of this size not
 * freed per picture shown would come to 640 × 360 × 3 / 2 bytes × 120 × 16, which is 660 MB; one opened file not closed, with its decoder and buffers, to some
 * 5 MB × 48.
 */
@EnabledOnOs(OS.LINUX)
@Tag("corpus")
class NativeMemoryTest {

    private static final int CYCLES = 16;
    private static final double MOST_GROWTH_MB = 60;

    @TempDir
    Path folder;

    @Test
    void openingJumpingSteppingDraggingAndClosingKeepsNoMemory() {
        List<String> lines =
                OwnProcess.run(Soak.class, folder.resolve("soak.mp4").toString());
        double growth = Double.parseDouble(lines.get(lines.size() - 1));
        System.out.printf("resident memory grew by %.1f MB over %d cycles%n", growth, CYCLES);
        assertThat(growth).isLessThan(MOST_GROWTH_MB);
    }

    /** The cycles; prints at last by how many MB the process has grown over them. */
    static final class Soak {

        private Soak() {}

        public static void main(String[] arguments) throws IOException {
            Path file = Path.of(arguments[0]);
            LongVideo.write(file, 640, 360, 2, 20, Progress.NONE);
            Path remote = new Share().path(file);
            SplittableRandom random = new SplittableRandom(1);
            for (int i = 0; i < 8; i++) {
                cycle(file, remote, random);
            }
            double before = residentMb();
            for (int i = 0; i < CYCLES; i++) {
                cycle(file, remote, random);
            }
            System.out.println(residentMb() - before);
            System.exit(0);
        }
    }

    private static void cycle(Path file, Path remote, SplittableRandom random) {
        RecordingFrames.firstPicture(remote, Rendering.FULL);
        for (Path path : List.of(file, remote)) {
            try (RecordingFrames frames = RecordingFrames.open(List.of(path), Progress.NONE)) {
                int count = (int) frames.frameCount();
                for (int i = 0; i < 5; i++) {
                    frames.picture(frames.frame(random.nextInt(count)));
                    frames.picture(frames.frame(random.nextInt(count)), Rendering.DRAFT);
                    frames.picture(frames.frame(1 + random.nextInt(count - 2)), Rendering.FULL.with(Fields.SECOND));
                }
                int from = 60 + random.nextInt(100);
                for (int i = 0; i < 15; i++) {
                    frames.picture(frames.frame(from + i));
                }
                for (int i = 15; i >= -15; i--) {
                    frames.picture(frames.frame(from + i));
                }
            }
        }
    }

    private static double residentMb() throws IOException {
        System.gc();
        return OwnProcess.own("VmRSS") / 1024.0;
    }
}
