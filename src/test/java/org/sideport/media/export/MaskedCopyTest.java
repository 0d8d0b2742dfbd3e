package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.sideport.media.FramePicture;
import org.sideport.media.RecordingFrames;
import org.sideport.media.WrittenVideo;
import org.sideport.media.export.MaskedCopy.Style;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** The checkered field of the stamped pictures, 80 x 40 at (40, 30), is what is hidden. */
class MaskedCopyTest {

    /** Of the checkered field, luma's mean distance from its mean: yellow and blue of (0.8, 0.2) by BT.601. */
    private static final double CONTRASTY = 50;

    private static final double FLAT = 12;

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource(Style.class)
    void theAreaIsHiddenThenAndThereOnlyAndAllFramesKeepTheirTimes(Style style) throws IOException {
        long[] ticks = Stamped.uneven(60);
        Path source = Stamped.write(folder.resolve("in.mp4"), ticks, 0, 0.2, 0.4);
        // hidden from the start of frame 20 to the start of frame 40
        MaskArea area = new MaskArea(40, 30, 80, 40, at(ticks[20]), at(ticks[40]));
        Path out = folder.resolve("out.mp4");
        MaskedCopy.Result result =
                MaskedCopy.write(List.of(source), List.of(area), style, false, out, false, Progress.NONE);
        WrittenVideo copy = WrittenVideo.read(out);
        List<WrittenVideo.Frame> before = WrittenVideo.read(source).frames();
        assertThat(Stamped.stamps(copy))
                .isEqualTo(IntStream.range(0, 60).boxed().toList());
        assertThat(Stamped.times(copy)).isEqualTo(Stamped.micros(ticks, 0, 60));
        assertThat(copy.streams()).isEqualTo(1);
        assertThat(result.masked()).isEqualTo(20);
        for (int n = 0; n < 60; n++) {
            int[] pixels = copy.frames().get(n).argb();
            double contrast = contrast(pixels, 320, 44, 34, 72, 32);
            if (n >= 20 && n < 40) {
                assertThat(contrast).as("frame " + n).isLessThan(FLAT);
            } else {
                assertThat(contrast).as("frame " + n).isGreaterThan(CONTRASTY);
            }
            // beside the area, eight pixels away for the encoder's blocks, the picture is as it was
            double elsewhere = difference(pixels, before.get(n).argb(), 320, 136, 20, 160, 100);
            assertThat(elsewhere).as("frame " + n).isLessThan(3);
        }
        int centre = copy.frames().get(30).argb()[50 * 320 + 80];
        if (style == Style.FILL) {
            assertThat(luma(centre)).isLessThan(12);
        } else {
            assertThat(luma(centre)).isBetween(60.0, 190.0);
        }
    }

    @Test
    void soundIsKeptInStepIfAskedFor() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(50), 0, 0.6, 0.8, 1.4, 1.6);
        Path out = folder.resolve("out.mp4");
        MaskedCopy.write(
                List.of(source), List.of(new MaskArea(40, 30, 80, 40)), Style.FILL, true, out, false, Progress.NONE);
        List<Double> edges = RawPackets.edges(out);
        assertThat(edges).hasSize(4);
        double[] expected = {0.6, 0.8, 1.4, 1.6};
        for (int i = 0; i < 4; i++) {
            assertThat(Math.abs(edges.get(i) - expected[i])).isLessThan(0.025);
        }
    }

    /**
     * The field lies at coded (40..120, 30..70) of 320 x 180. Turned clockwise by 90 degrees, coded (x, y) is shown at
     * (180 - y, x): the field is at x 110..150, y 40..120. By 180: (320 - x, 180 - y): 200..280, 110..150. By 270:
     * (y, 320 - x): 30..70, 200..280.
     */
    @ParameterizedTest
    @CsvSource({"90,110,40,40,80", "180,200,110,80,40", "270,30,200,40,80"})
    void areasAreThoseOfTheUprightPicture(int degrees, int x, int y, int width, int height) throws IOException {
        Path plain = Stamped.write(folder.resolve("plain.mp4"), Stamped.even(5), 0);
        Path source = new Planted(plain).rotated(degrees).write(folder.resolve("in.mp4"), "mp4");
        Path out = folder.resolve("out.mp4");
        MaskedCopy.write(
                List.of(source),
                List.of(new MaskArea(x, y, width, height)),
                Style.FILL,
                false,
                out,
                false,
                Progress.NONE);
        int[] pixels = WrittenVideo.read(out).frames().get(2).argb();
        assertThat(contrast(pixels, 320, 40, 30, 80, 40)).isLessThan(FLAT);
        try (RecordingFrames frames = RecordingFrames.open(List.of(out), Progress.NONE)) {
            FramePicture upright = frames.picture(frames.frame(2));
            assertThat(upright.width()).isEqualTo(degrees == 180 ? 320 : 180);
            int at = ((y + height / 2) * upright.width() + x + width / 2) * 4;
            assertThat(upright.bgra()[at + 1] & 0xFF).isLessThan(30);
        }
    }

    /** Pixels twice as wide as high: 320 x 180 is shown as 640 x 180, the field at x 80..240. */
    @Test
    void areasAreThoseOfTheStretchedPicture() {
        SourceFiles.Part part = part(320, 180, 2, 1, 0);
        assertThat(CodedBox.of(new MaskArea(80, 30, 160, 40), part, 320, 180)).isEqualTo(new CodedBox(40, 30, 120, 70));
        // turned by 90 degrees the picture is 180 x 320 pixels, each twice as high as wide: shown as 90 x 320;
        // the field, at x 110..150 of 180, y 40..120, is at x 55..75
        SourceFiles.Part turned = part(320, 180, 2, 1, 90);
        assertThat(CodedBox.of(new MaskArea(55, 40, 20, 80), turned, 320, 180))
                .isEqualTo(new CodedBox(40, 30, 120, 70));
    }

    @Test
    void oddEdgesAreWidenedAndAnAreaOutsideIsRefused() throws IOException {
        SourceFiles.Part part = part(320, 180, 1, 1, 0);
        assertThat(CodedBox.of(new MaskArea(41, 31, 2, 2), part, 320, 180)).isEqualTo(new CodedBox(40, 30, 44, 34));
        assertThat(CodedBox.of(new MaskArea(300, 170, 50, 50), part, 320, 180))
                .isEqualTo(new CodedBox(300, 170, 320, 180));
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(5), 0);
        Path out = folder.resolve("out.mp4");
        assertThatThrownBy(() -> MaskedCopy.write(
                        List.of(source),
                        List.of(new MaskArea(320, 0, 5, 5)),
                        Style.FILL,
                        false,
                        out,
                        false,
                        Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("outside the picture");
    }

    /** The check itself must find an area that is not hidden: here the copy is one without any mask. */
    @Test
    void theCheckFindsACopyInWhichTheAreaShows() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(10), 0);
        SourceFiles files = SourceFiles.open(List.of(source), Progress.NONE);
        for (boolean blur : new boolean[] {false, true}) {
            Masker masker = new Masker(List.of(new MaskArea(40, 30, 80, 40)), blur, files.first(), 320, 180);
            try (OutputFile file = OutputFile.create(folder.resolve("out.mp4"), "mp4", false, List.of(source))) {
                Transcode.run(files.whole(), file, Encoding.FAITHFUL, false, FrameEdit.NONE, "Writing", Progress.NONE);
                assertThatThrownBy(() -> MaskCheck.run(files.whole(), file, masker, 320, 180, Progress.NONE))
                        .isInstanceOf(InputException.class)
                        .hasMessageContaining("not hidden at 0.0 s");
            }
        }
        try (var left = Files.list(folder)) {
            assertThat(left).containsExactly(source);
        }
    }

    @Test
    void cancellingLeavesNothing() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(50), 0);
        // once in the encoding, once in the check
        for (double when : new double[] {0.4, 0.85}) {
            Progress cancels = new Progress() {
                private boolean cancelled;

                @Override
                public void report(double fraction, String message) {
                    cancelled = fraction > when;
                }

                @Override
                public boolean isCancelled() {
                    return cancelled;
                }
            };
            assertThatThrownBy(() -> MaskedCopy.write(
                            List.of(source),
                            List.of(new MaskArea(40, 30, 80, 40)),
                            Style.FILL,
                            false,
                            folder.resolve("out.mp4"),
                            false,
                            cancels))
                    .isInstanceOf(CancellationException.class);
            try (var left = Files.list(folder)) {
                assertThat(left).containsExactly(source);
            }
        }
    }

    @Test
    void areasAreReadFromText() {
        assertThat(MaskArea.parse("1,2,30,40")).isEqualTo(new MaskArea(1, 2, 30, 40));
        assertThat(MaskArea.parse("1,2,30,40@0:05-12.5"))
                .isEqualTo(new MaskArea(1, 2, 30, 40, MediaTime.ofSeconds(5), MediaTime.ofSeconds(12.5)));
        assertThat(MaskArea.parse("1,2,30,40@-7"))
                .isEqualTo(new MaskArea(1, 2, 30, 40, MediaTime.ZERO, MediaTime.ofSeconds(7)));
        assertThat(MaskArea.parse("1,2,30,40@7-")).isEqualTo(new MaskArea(1, 2, 30, 40, MediaTime.ofSeconds(7), null));
        for (String wrong : List.of("1,2,30", "1,2,0,4", "-1,2,3,4", "1,2,3,4@5", "1,2,3,4@7-5", "1,2,3,4@x-5")) {
            assertThatThrownBy(() -> MaskArea.parse(wrong)).as(wrong).isInstanceOf(InputException.class);
        }
    }

    private static SourceFiles.Part part(int width, int height, int num, int den, int rotation) {
        return new SourceFiles.Part(Path.of("x.mp4"), null, 0, 0, width, height, num, den, rotation, 0, 0);
    }

    private static MediaTime at(long ticks) {
        return MediaTime.ofMicros(Math.round(ticks / 0.09));
    }

    private static double luma(int argb) {
        return 0.299 * (argb >> 16 & 255) + 0.587 * (argb >> 8 & 255) + 0.114 * (argb & 255);
    }

    /** Mean distance of brightness from its mean. */
    private static double contrast(int[] pixels, int stride, int x, int y, int width, int height) {
        double mean = 0;
        for (int i = 0; i < width * height; i++) {
            mean += luma(pixels[(y + i / width) * stride + x + i % width]) / (width * height);
        }
        double distance = 0;
        for (int i = 0; i < width * height; i++) {
            distance += Math.abs(luma(pixels[(y + i / width) * stride + x + i % width]) - mean) / (width * height);
        }
        return distance;
    }

    private static double difference(int[] a, int[] b, int stride, int x, int y, int width, int height) {
        double sum = 0;
        for (int i = 0; i < width * height; i++) {
            int at = (y + i / width) * stride + x + i % width;
            sum += Math.abs(luma(a[at]) - luma(b[at])) / (width * height);
        }
        return sum;
    }
}
