package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

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
import org.sideport.media.WrittenVideo;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** What a clip must hold follows from how its source was made: the number in each picture, the time of each, the beeps. */
class ClipTest {

    @TempDir
    Path folder;

    @Test
    void everyFrameOnTheScreenInTheStretchIsInTheClipAtItsOwnDistanceFromTheFirst() throws IOException {
        long[] ticks = Stamped.uneven(80);
        Path source = Stamped.write(folder.resolve("in.mp4"), ticks, 0);
        // frame 31 is on the screen from ticks[31]; a microsecond later it still is. Frame 60 starts at the end: not
        // in.
        MediaTime from = MediaTime.ofMicros(Math.round(ticks[31] / 0.09) + 1);
        MediaTime to = MediaTime.ofMicros(Math.round(ticks[60] / 0.09));
        Path out = folder.resolve("clip.mp4");
        Clip.Result result = Clip.exact(List.of(source), from, to, true, out, false, Progress.NONE);
        WrittenVideo clip = WrittenVideo.read(out);
        assertThat(Stamped.stamps(clip))
                .isEqualTo(IntStream.range(31, 60).boxed().toList());
        assertThat(Stamped.times(clip)).isEqualTo(Stamped.micros(ticks, 31, 60));
        assertThat(result.frames()).isEqualTo(29);
        assertThat(result.from().micros()).isEqualTo(Math.round(ticks[31] / 0.09));
        assertThat(result.to()).isEqualTo(to);
        assertThat(result.sound()).isFalse();
        assertThat(clip.tags()).allMatch(tag -> tag.matches("(major_brand|minor_version|compatible_brands)=.*"));
    }

    @Test
    void aStretchOverTheBorderOfTwoFilesRunsOnWithoutGapAndTheSoundStaysInStep() throws IOException {
        // two files of 2 s; tones at 1.2-1.4 s of the first, 0.3-0.5 s of the second
        Path one = Stamped.write(folder.resolve("p1.mp4"), Stamped.even(50), 0, 1.2, 1.4);
        Path two = Stamped.write(folder.resolve("p2.mp4"), Stamped.even(50), 50, 0.3, 0.5);
        Path out = folder.resolve("clip.mp4");
        Clip.Result result = Clip.exact(
                List.of(one, two), MediaTime.ofSeconds(1), MediaTime.ofSeconds(3), true, out, false, Progress.NONE);
        WrittenVideo clip = WrittenVideo.read(out);
        assertThat(Stamped.stamps(clip))
                .isEqualTo(IntStream.range(25, 75).boxed().toList());
        assertThat(Stamped.times(clip))
                .isEqualTo(IntStream.range(0, 50).mapToObj(i -> i * 40_000L).toList());
        assertThat(result.sound()).isTrue();
        // 1.2 - 1 = 0.2; 2 + 0.3 - 1 = 1.3; an AAC codec smears edges over some milliseconds
        List<Double> edges = RawPackets.edges(out);
        assertThat(edges).hasSize(4);
        double[] expected = {0.2, 0.4, 1.3, 1.5};
        for (int i = 0; i < 4; i++) {
            assertThat(edges.get(i)).isCloseTo(expected[i], within(0.025));
        }
    }

    /** Transport streams start at 1.4 s of their own clock and seek late; Matroska counts milliseconds. */
    @ParameterizedTest
    @CsvSource({"mpegts,.ts", "matroska,.mkv", "mp4,.mp4"})
    void theCutIsExactAndTheSoundInStepWhateverTheContainer(String muxer, String extension) throws IOException {
        // tones at 5.2-5.4 and 6.0-6.2 s of 8 s
        Path plain = Stamped.write(folder.resolve("plain.mp4"), Stamped.even(200), 0, 5.2, 5.4, 6.0, 6.2);
        Path source = new Planted(plain).write(folder.resolve("in" + extension), muxer);
        Path out = folder.resolve("clip.mp4");
        Clip.exact(
                List.of(source), MediaTime.ofSeconds(5.08), MediaTime.ofSeconds(6.48), true, out, false, Progress.NONE);
        WrittenVideo clip = WrittenVideo.read(out);
        // 5.08 s is frame 127, 6.48 s frame 162
        assertThat(Stamped.stamps(clip))
                .isEqualTo(IntStream.range(127, 162).boxed().toList());
        List<Double> edges = RawPackets.edges(out);
        assertThat(edges).hasSize(4);
        double[] expected = {0.12, 0.32, 0.92, 1.12};
        for (int i = 0; i < 4; i++) {
            assertThat(edges.get(i)).isCloseTo(expected[i], within(0.025));
        }
    }

    @Test
    void withoutSoundThereIsOneStream() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(30), 0, 0.2, 0.4);
        Path out = folder.resolve("clip.mp4");
        Clip.exact(List.of(source), MediaTime.ZERO, MediaTime.ofSeconds(1), false, out, false, Progress.NONE);
        assertThat(WrittenVideo.read(out).streams()).isEqualTo(1);
    }

    @Test
    void theFastCutStartsOnTheKeyFrameBeforeAndSaysSo() throws Exception {
        // key frames at 0, 25, 50, 75 by the way of making
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(100), 0, 1.2, 1.4);
        Path out = folder.resolve("clip.mp4");
        Clip.Result result = Clip.fast(
                List.of(source), MediaTime.ofSeconds(1.5), MediaTime.ofSeconds(2.4), true, out, false, Progress.NONE);
        WrittenVideo clip = WrittenVideo.read(out);
        List<Integer> stamps = Stamped.stamps(clip);
        // asked: frames 37 to 59; copied: from 25 on, without hole, to 59 and perhaps frames that others depend on
        assertThat(stamps.get(0)).isEqualTo(25);
        assertThat(stamps).contains(59).hasSizeLessThanOrEqualTo(38);
        assertThat(result.frames()).isEqualTo(stamps.size());
        assertThat(result.from()).isEqualTo(MediaTime.ofSeconds(1));
        assertThat(result.to().micros()).isEqualTo((stamps.get(stamps.size() - 1) + 1) * 40_000L);
        assertThat(result.exact()).isFalse();
        // the packets are those of the source
        assertThat(RawPackets.read(source).video())
                .containsSubsequence(RawPackets.read(out).video());
        List<Double> edges = RawPackets.edges(out);
        assertThat(edges).hasSize(2);
        assertThat(edges.get(0)).isCloseTo(0.2, within(0.03));
    }

    @Test
    void aCancelledCutLeavesNothingBehind() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(60), 0, 0.2, 0.4);
        for (boolean fast : new boolean[] {false, true}) {
            Path out = folder.resolve("clip.mp4");
            Progress cancelsMidway = new Progress() {
                private boolean cancelled;

                @Override
                public void report(double fraction, String message) {
                    cancelled = fraction > 0.5;
                }

                @Override
                public boolean isCancelled() {
                    return cancelled;
                }
            };
            assertThatThrownBy(() -> {
                        if (fast) {
                            Clip.fast(
                                    List.of(source),
                                    MediaTime.ZERO,
                                    MediaTime.ofSeconds(2),
                                    true,
                                    out,
                                    false,
                                    cancelsMidway);
                        } else {
                            Clip.exact(
                                    List.of(source),
                                    MediaTime.ZERO,
                                    MediaTime.ofSeconds(2),
                                    true,
                                    out,
                                    false,
                                    cancelsMidway);
                        }
                    })
                    .isInstanceOf(CancellationException.class);
            try (var left = Files.list(folder)) {
                assertThat(left).containsExactly(source);
            }
        }
    }

    @Test
    void whatExistsIsKeptUnlessToldAndTheRecordingAlways() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(10), 0);
        byte[] before = Files.readAllBytes(source);
        Path out = Files.writeString(folder.resolve("clip.mp4"), "kept");
        MediaTime end = MediaTime.ofSeconds(0.2);
        assertThatThrownBy(() -> Clip.exact(List.of(source), MediaTime.ZERO, end, true, out, false, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("--replace");
        assertThat(out).hasContent("kept");
        assertThatThrownBy(() -> Clip.exact(List.of(source), MediaTime.ZERO, end, true, source, true, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("never changed");
        assertThat(Files.readAllBytes(source)).isEqualTo(before);
        Clip.exact(List.of(source), MediaTime.ZERO, end, true, out, true, Progress.NONE);
        assertThat(WrittenVideo.read(out).frames()).hasSize(5);
    }

    @Test
    void aStretchThatIsEmptyOrLiesBeyondTheEndIsRefused() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(10), 0);
        Path out = folder.resolve("clip.mp4");
        assertThatThrownBy(() -> Clip.exact(
                        List.of(source),
                        MediaTime.ofSeconds(0.4),
                        MediaTime.ofSeconds(1),
                        true,
                        out,
                        false,
                        Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("ends at 0.4 s");
        assertThatThrownBy(() -> Clip.exact(
                        List.of(source),
                        MediaTime.ofSeconds(0.2),
                        MediaTime.ofSeconds(0.2),
                        true,
                        out,
                        false,
                        Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("not after the start");
    }
}
