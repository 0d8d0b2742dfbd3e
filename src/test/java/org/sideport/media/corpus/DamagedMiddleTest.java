package org.sideport.media.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.media.FrameRef;
import org.sideport.media.MediaProbe;
import org.sideport.media.RecordingFrames;
import org.sideport.model.Progress;

/** Where bytes in the middle are lost, how many pictures go with them depends on the container: all others must hold. */
class DamagedMiddleTest {

    @TempDir
    Path folder;

    /**
     * 100 frames, groups of 10. The twentieth part that is lost touches at most three groups, and a reader may need
     * another to find its way again: frames before 30 and from 80 on are out of its reach.
     */
    @ParameterizedTest
    @CsvSource({
        "libx264, mpegts",
        "mpeg2video, mpegts",
        "mpeg2video, vob",
        "libx264, matroska",
        "libx264, avi",
        "mjpeg, avi",
        "wmv2, asf",
        "libx264, mp4",
        "libx264, h264"
    })
    void framesOutsideTheDamageKeepTheirTimesAndPictures(String coder, String container) throws Exception {
        StampedFile recipe =
                StampedFile.frames(100, 25).as(coder, container).gop(10).noisy();
        if (container.equals("matroska")) {
            // a reader finds its way again at the next cluster: here one for each group of pictures
            recipe.option("cluster_time_limit", "400");
        }
        Path file = Damage.rubbish(recipe, 0.5, 0.55, "damaged").make(folder);
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            assertThat(frames.frameCount()).isBetween(60L, 102L);
            FrameRef last = frames.frame(frames.frameCount() - 1);
            assertThat(Stamps.read(frames.picture(last))).isEqualTo(99);
            assertThat(Stamps.read(frames.picture(frames.frame(0)))).isZero();
            for (long n = frames.frameCount() - 1; n >= 0; n--) {
                FrameRef frame = frames.frame(n);
                long stamp = frame.start().micros() / 40_000;
                int seen = Stamps.read(frames.picture(frame));
                if (n < 30) {
                    assertThat(seen).as("frame " + n).isEqualTo((int) stamp).isEqualTo((int) n);
                } else if (frames.frameCount() - n <= 20) {
                    assertThat(seen).as("frame " + n).isEqualTo((int) (100 - (frames.frameCount() - n)));
                    // a bare stream has no clock: what is lost is lost from the count
                    if (!container.equals("h264")) {
                        assertThat(stamp).as("time of frame " + n).isEqualTo(seen);
                    }
                }
            }
        }
    }

    /** A transport stream with nothing in it for a stretch: every frame but those beside the hole is there. */
    @ParameterizedTest
    @CsvSource({"1000", "65536", "300000"})
    void aHoleInATransportStreamDoesNotEndIt(int bytes) throws Exception {
        StampedFile recipe =
                StampedFile.frames(100, 25).as("libx264", "mpegts").gop(10).noisy();
        Path file = Damage.hole(recipe, 0.5, bytes, "hole.ts").make(folder);
        assertThat(MediaProbe.probe(file, Progress.NONE).segment().durationUs()).isEqualTo(4_000_000);
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            assertThat(frames.frameCount()).isBetween(98L, 100L);
            for (long n = frames.frameCount() - 1; n >= 0; n -= 9) {
                FrameRef frame = frames.frame(n);
                if (Math.abs(n - 50) > 12) {
                    assertThat(Stamps.read(frames.picture(frame)))
                            .isEqualTo((int) (frame.start().micros() / 40_000));
                }
            }
        }
    }
}
