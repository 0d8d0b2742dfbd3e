package org.sideport.media.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.media.FrameRef;
import org.sideport.media.RecordingFrames;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** The two promises on which every timing rests. */
class ExactnessProofTest {

    @TempDir
    Path folder;

    static Stream<Arguments> recipes() {
        long[] uneven = {0, 40, 80, 200, 210, 450, 451, 1_000, 1_040, 1_041, 3_000, 3_001, 3_333, 3_350, 7_000};
        return Stream.of(
                Arguments.of("variable rate", StampedFile.at(1_000, uneven).b(2).gop(6), "vfr.mp4"),
                Arguments.of("b-frames", StampedFile.frames(60, 25).b(3).gop(15), "b.mp4"),
                Arguments.of(
                        "b-frames at 29.97",
                        StampedFile.frames(60, 30).ticks(1_001, 30_000).b(3).gop(15),
                        "n.mp4"));
    }

    /** At its first moment, in its middle and in its last microsecond, a frame is the one on the screen. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("recipes")
    void aFrameIsOnTheScreenFromItsTimeUntilJustBeforeTheNext(String name, StampedFile recipe, String file)
            throws Exception {
        recipe.write(folder.resolve(file));
        try (RecordingFrames frames = RecordingFrames.open(List.of(folder.resolve(file)), Progress.NONE)) {
            assertThat(frames.frameCount()).isEqualTo(recipe.pts.size());
            for (int n = 0; n < recipe.pts.size(); n++) {
                long start = micros(recipe, recipe.pts.get(n));
                long end = n + 1 < recipe.pts.size()
                        ? micros(recipe, recipe.pts.get(n + 1))
                        : frames.duration().micros();
                for (long at : new long[] {start, (start + end) / 2, end - 1}) {
                    FrameRef found = frames.frameAt(MediaTime.ofMicros(at));
                    assertThat(found.number()).as("at " + at).isEqualTo(n);
                    assertThat(found.start().micros()).isEqualTo(start);
                    assertThat(found.end().micros()).isEqualTo(end);
                    assertThat(Stamps.read(frames.picture(found))).isEqualTo(n);
                }
            }
        }
    }

    private static long micros(StampedFile recipe, long tick) {
        return Math.round(tick * 1e6 * recipe.tickNum / recipe.tickDen);
    }

    /** The same coded pictures, once in one file and once in two as a recorder splits them. */
    @ParameterizedTest
    @CsvSource({
        "libx264, mp4, 2, true",
        "libx264, mp4, 2, false",
        "libx264, mpegts, 2, true",
        "libx264, mpegts, 2, false",
        "libx264, matroska, 0, true",
        "mpeg2video, vob, 0, false"
    })
    void theHalvesOfASplitRecordingGiveTheFramesAndTimesOfTheWhole(
            String coder, String container, int bFrames, boolean clockFromZero) throws Exception {
        int count = 60;
        int split = 36;
        StampedFile whole = recipe(coder, container, bFrames, count);
        whole.write(folder.resolve("whole"));
        recipe(coder, container, bFrames, count)
                .filter(s -> s.number() < split ? s : null)
                .write(folder.resolve("part1"));
        recipe(coder, container, bFrames, count)
                .filter(s -> s.number() >= split ? s : null)
                .offset(clockFromZero ? -split : 0)
                .write(folder.resolve("part2"));
        List<Path> parts = List.of(folder.resolve("part1"), folder.resolve("part2"));
        try (RecordingFrames one = RecordingFrames.open(List.of(folder.resolve("whole")), Progress.NONE);
                RecordingFrames two = RecordingFrames.open(parts, Progress.NONE)) {
            assertThat(two.frameCount()).isEqualTo(one.frameCount()).isEqualTo(count);
            assertThat(two.duration()).isEqualTo(one.duration()).isEqualTo(MediaTime.ofMicros(count * 40_000L));
            List<String> inOne = new ArrayList<>();
            List<String> inTwo = new ArrayList<>();
            for (int n = 0; n < count; n++) {
                inOne.add(describe(one, one.frame(n)));
                inTwo.add(describe(two, two.frame(n)));
                assertThat(two.frame(n).segment()).isEqualTo(n < split ? 0 : 1);
                assertThat(two.frameAt(MediaTime.ofMicros(n * 40_000L + 39_999)).number())
                        .isEqualTo(n);
            }
            assertThat(inTwo).isEqualTo(inOne);
            assertThat(inOne.get(split)).isEqualTo(split + " at " + split * 40_000L + " shows " + split);
        }
    }

    private static StampedFile recipe(String coder, String container, int bFrames, int count) {
        return StampedFile.frames(count, 25).as(coder, container).b(bFrames);
    }

    private static String describe(RecordingFrames frames, FrameRef frame) {
        return frame.number() + " at " + frame.start().micros() + " shows " + Stamps.read(frames.picture(frame));
    }
}
