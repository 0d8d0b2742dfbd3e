package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class VideoWriterTest {

    private static final VideoOptions SMALL = VideoOptions.silent(160, 120, 12_800, 512, 20);

    @TempDir
    Path folder;

    @Test
    void framesComeBackAtTheTimesThatTheyWereGivenEvenIfTheirDistanceVaries() throws IOException {
        Path file = folder.resolve("uneven #1 ü.mp4");
        long[] ticks = {0, 512, 1024, 4096, 4608, 9000, 12_800};
        try (VideoWriter writer = VideoWriter.open(file, SMALL)) {
            for (long tick : ticks) {
                writer.frame(plain(0xFF808080), tick);
            }
            writer.finish();
        }
        List<Long> expected =
                Arrays.stream(ticks).mapToObj(t -> Math.round(t * 1e6 / 12_800)).toList();
        assertThat(WrittenVideo.read(file).frames())
                .extracting(WrittenVideo.Frame::micros)
                .isEqualTo(expected);
    }

    @Test
    void longFilesHoldBidirectionalFramesAndKeyFramesAtTheAskedDistance() throws IOException {
        Path file = folder.resolve("long.mp4");
        try (VideoWriter writer = VideoWriter.open(file, SMALL.withKeyFrameEvery(25))) {
            for (int n = 0; n < 60; n++) {
                int[] pixels = plain(0xFF406080);
                Arrays.fill(pixels, n * 100, n * 100 + 900, 0xFFFFFFFF);
                writer.frame(pixels, n * 512L);
            }
            writer.finish();
        }
        List<WrittenVideo.Frame> frames = WrittenVideo.read(file).frames();
        assertThat(frames).hasSize(60).anyMatch(WrittenVideo.Frame::bidirectional);
        assertThat(frames.get(0).key()).isTrue();
        assertThat(frames.get(25).key()).isTrue();
    }

    @Test
    void coloursSurviveWithinWhatTheChromaSubsamplingCosts() throws IOException {
        Path file = folder.resolve("colour.mp4");
        int orange = 0xFFE07030;
        try (VideoWriter writer = VideoWriter.open(file, SMALL)) {
            writer.frame(plain(orange), 0);
            writer.finish();
        }
        int seen = WrittenVideo.read(file).frames().get(0).argb()[60 * 160 + 80];
        for (int shift : new int[] {0, 8, 16}) {
            assertThat(seen >> shift & 0xFF).isCloseTo(orange >> shift & 0xFF, org.assertj.core.data.Offset.offset(6));
        }
    }

    @Test
    void soundMakesASecondStreamAndNoTagNamesAnything() throws IOException {
        Path file = folder.resolve("sound.mp4");
        try (VideoWriter writer = VideoWriter.open(file, SMALL.withAudioRate(48_000))) {
            for (int n = 0; n < 10; n++) {
                writer.frame(plain(0xFF000000), n * 512L);
                writer.sound(new float[1920]);
            }
            writer.finish();
        }
        WrittenVideo video = WrittenVideo.read(file);
        assertThat(video.streams()).isEqualTo(2);
        // brands of the file format are no identity; anything else would be
        assertThat(video.tags()).allMatch(tag -> tag.matches("(major_brand|minor_version|compatible_brands)=.*"));
    }

    @Test
    void nothingIsLeftBehindIfTheFileIsNotFinished() throws IOException {
        Path file = folder.resolve("abandoned.mp4");
        try (VideoWriter writer = VideoWriter.open(file, SMALL)) {
            writer.frame(plain(0xFF000000), 0);
        }
        try (var left = Files.list(folder)) {
            assertThat(left).isEmpty();
        }
    }

    @Test
    void aFolderThatIsMissingIsNamedInTheError() {
        assertThatThrownBy(() -> VideoWriter.open(folder.resolve("missing/file.mp4"), SMALL))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("missing")
                .hasMessageContaining("create the file");
    }

    @Test
    void aFrameThatIsNotLaterThanTheOneBeforeIsRefused() throws IOException {
        try (VideoWriter writer = VideoWriter.open(folder.resolve("order.mp4"), SMALL)) {
            writer.frame(plain(0), 512);
            assertThatThrownBy(() -> writer.frame(plain(0), 512)).isInstanceOf(IllegalArgumentException.class);
        }
    }

    private static int[] plain(int colour) {
        int[] pixels = new int[160 * 120];
        Arrays.fill(pixels, colour);
        return pixels;
    }
}
