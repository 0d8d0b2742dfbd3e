package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.media.FrameRef;
import org.sideport.media.RecordingFrames;
import org.sideport.media.WrittenVideo;
import org.sideport.media.corpus.StampedFile;
import org.sideport.media.corpus.Stamps;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/**
 * MPEG program streams leave display times out: 50 frames of 40 ms, numbered in the picture. Copies must hold, at each
 * number and time, what is shown at that number and time.
 */
class ProgramStreamTest {

    @TempDir
    Path folder;

    private Path source;

    @BeforeEach
    void make() throws Exception {
        source = folder.resolve("in.vob");
        StampedFile.frames(50, 25).as("mpeg2video", "vob").b(2).sound(0, 2).write(source);
    }

    @Test
    void theSourceShowsEachFrameAtItsTime() {
        assertThat(shown(source)).isEqualTo(expected(0, 50));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 11, 12, 13, 25, 37})
    void aClipHoldsTheFramesOfItsNumbers(int from) throws Exception {
        Path out = folder.resolve("clip.mp4");
        int to = from + 13;
        Clip.Result result = Clip.exact(
                List.of(source),
                MediaTime.ofMicros(from * 40_000L),
                MediaTime.ofMicros(to * 40_000L),
                true,
                out,
                false,
                Progress.NONE);
        assertThat(result.from().micros()).isEqualTo(from * 40_000L);
        assertThat(result.to().micros()).isEqualTo(to * 40_000L);
        assertThat(result.lost()).isZero();
        assertThat(Stamped.stamps(WrittenVideo.read(out)))
                .isEqualTo(IntStream.range(from, to).boxed().toList());
    }

    @Test
    void aMaskedCopyHoldsAllFramesAtTheirTimes() throws Exception {
        Path out = folder.resolve("masked.mp4");
        MaskedCopy.write(
                List.of(source),
                List.of(MaskArea.parse("140,100,16,16")),
                MaskedCopy.Style.FILL,
                true,
                out,
                false,
                Progress.NONE);
        assertThat(shown(out)).isEqualTo(expected(0, 50));
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void aNeutralCopyHoldsAllFramesAtTheirTimes(boolean sound) throws Exception {
        Path out = folder.resolve("copy" + Container.of(source).extension());
        NeutralCopy.Result result = NeutralCopy.write(source, sound, false, out, false, Progress.NONE);
        assertThat(result.frames()).isEqualTo(50);
        assertThat(result.durationUs()).isEqualTo(2_000_000);
        assertThat(shown(out)).isEqualTo(expected(0, 50));
        assertThat(RawPackets.read(out).video())
                .isEqualTo(RawPackets.read(source).video());
    }

    /**
     * Four frames were never written and most of the others have no time: what the library fills in by itself differs
     * from the times that probe and frame go by.
     */
    @Test
    void copiesOfAStreamThatLostFramesGoByTheTimesThatAreShown() throws Exception {
        Path lossy = folder.resolve("lossy.vob");
        StampedFile.frames(50, 25)
                .as("mpeg2video", "vob")
                .filter(s -> s.number() >= 20 && s.number() < 24 ? null : s)
                .write(lossy);
        List<String> shown = shown(lossy);
        assertThat(shown).hasSize(46);
        Path copy = folder.resolve("lossy-copy" + Container.of(lossy).extension());
        NeutralCopy.write(lossy, false, false, copy, true, Progress.NONE);
        assertThat(shown(copy)).isEqualTo(shown);
        Path clip = folder.resolve("lossy.mp4");
        try (RecordingFrames frames = RecordingFrames.open(List.of(lossy), Progress.NONE)) {
            Clip.Result result = Clip.exact(
                    List.of(lossy),
                    frames.frame(19).start(),
                    frames.frame(30).start(),
                    false,
                    clip,
                    false,
                    Progress.NONE);
            assertThat(result.from()).isEqualTo(frames.frame(19).start());
            assertThat(result.to()).isEqualTo(frames.frame(30).start());
            assertThat(result.frames()).isEqualTo(11);
        }
    }

    /** Number in the picture and time, for each frame. */
    private static List<String> shown(Path file) {
        List<String> shown = new ArrayList<>();
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            for (long n = 0; n < frames.frameCount(); n++) {
                FrameRef frame = frames.frame(n);
                shown.add(Stamps.read(frames.picture(frame)) + " at "
                        + Math.round(frame.start().micros() / 1000.0));
            }
        }
        return shown;
    }

    private static List<String> expected(int from, int to) {
        return IntStream.range(from, to).mapToObj(n -> n + " at " + n * 40).toList();
    }
}
