package org.sideport.media.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.media.Damage.Kind;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.MediaProbe;
import org.sideport.media.MediaWarning;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.ProbedFile;
import org.sideport.model.Progress;

/** Damage is found in the packets, without decoding, where it was done: 100 frames of 40 ms, a key picture every ten. */
class DamageTimesTest {

    @TempDir
    Path folder;

    private static StampedFile recipe(String coder, String container) {
        StampedFile recipe =
                StampedFile.frames(100, 25).as(coder, container).gop(10).noisy();
        return container.equals("mp4") ? recipe.option("movflags", "faststart") : recipe;
    }

    private ProbedFile probe(Path file) {
        return MediaProbe.probe(file, Progress.NONE);
    }

    /** From the middle of packet 43 to the middle of 46, which are shown in that order: no B-frames. */
    @ParameterizedTest
    @CsvSource({"libx264", "libx265"})
    void zerosInTheMiddleOfAnMp4AreFoundWithTheirTimes(String coder) throws Exception {
        Path file = org.sideport.media.corpus.Damage.zeros(recipe(coder, "mp4"), 43, 46, "zeros.mp4")
                .make(folder);
        ProbedFile probed = probe(file);
        assertThat(probed.damage()).singleElement().satisfies(d -> {
            assertThat(d.kind()).isEqualTo(Kind.PACKETS);
            assertThat(d.fromUs()).isEqualTo(43 * 40_000);
            assertThat(d.toUs()).isEqualTo(47 * 40_000);
            assertThat(d.spoiledToUs()).isEqualTo(50 * 40_000);
            assertThat(d.packets()).isEqualTo(4);
        });
        assertThat(probed.warnings())
                .filteredOn(w -> w.code() == Code.DAMAGED)
                .singleElement()
                .satisfies(w -> {
                    assertThat(w.atUs()).isEqualTo(43 * 40_000L);
                    assertThat(w.text())
                            .contains("0:01.720")
                            .contains("0:01.880")
                            .contains("4 pictures");
                });
        assertThat(probed.segment().durationUs()).isEqualTo(4_000_000);
    }

    /** A whole packet of zeros, of which the container says nothing. */
    @ParameterizedTest
    @CsvSource({"libx264, mp4", "mpeg4, mp4", "mjpeg, mp4"})
    void oneWipedPacketIsFound(String coder, String container) throws Exception {
        Path file = org.sideport.media.corpus.Damage.wiped(recipe(coder, container), 29, "wiped.mp4")
                .make(folder);
        assertThat(probe(file).damage()).singleElement().satisfies(d -> {
            assertThat(d.fromUs()).isEqualTo(29 * 40_000);
            assertThat(d.toUs()).isEqualTo(30 * 40_000);
            assertThat(d.packets()).isEqualTo(1);
        });
    }

    /** A twentieth of the file is random bytes, from its middle on: about frames 50 to 55, which are alike in size. */
    @ParameterizedTest
    @CsvSource({"libx264, mp4", "libx264, matroska", "libx264, mpegts", "mpeg2video, mpegts"})
    void rubbishInTheMiddleIsFoundNearWhereItIs(String coder, String container) throws Exception {
        Path file = org.sideport.media.corpus.Damage.rubbish(recipe(coder, container), 0.5, 0.55, "rubbish")
                .make(folder);
        ProbedFile probed = probe(file);
        assertThat(probed.warnings()).extracting(MediaWarning::code).contains(Code.DAMAGED);
        assertThat(probed.damage()).isNotEmpty().allSatisfy(d -> {
            assertThat(d.spoiledToUs()).isGreaterThan(45 * 40_000);
            assertThat(d.fromUs()).isLessThan(65 * 40_000);
        });
    }

    /** The recorder died at packet 60 of a file whose space was reserved and whose table was written before. */
    @Test
    void aTailOfZerosIsFoundWithTheTimeWhereThePicturesEnd() throws Exception {
        Path file = org.sideport.media.corpus.Damage.zeros(recipe("libx264", "mp4"), 60, 100, "tail.mp4")
                .make(folder);
        ProbedFile probed = probe(file);
        assertThat(probed.damage())
                .hasSize(2)
                .allSatisfy(d -> assertThat(d.fromUs()).isEqualTo(60 * 40_000));
        assertThat(probed.damage()).extracting(d -> d.kind()).containsExactly(Kind.PACKETS, Kind.ZERO_TAIL);
        assertThat(probed.damage().get(0).toUs()).isEqualTo(4_000_000);
        assertThat(probed.damage().get(0).packets()).isEqualTo(40);
        assertThat(probed.warnings())
                .filteredOn(w -> w.code() == Code.ZERO_TAIL)
                .singleElement()
                .satisfies(w -> assertThat(w.text()).contains("0:02.400"));
    }

    @ParameterizedTest
    @CsvSource({"libx264, mp4", "libx265, mp4", "libx264, matroska", "mpeg2video, vob", "mjpeg, avi", "wmv2, asf"})
    void aSoundFileHasNoDamage(String coder, String container) throws Exception {
        Path file = folder.resolve("sound");
        recipe(coder, container).write(file);
        assertThat(probe(file).damage()).isEmpty();
    }

    @Test
    void anIndexThatWasKeptTellsTheSameDamage() throws Exception {
        Path file = org.sideport.media.corpus.Damage.zeros(recipe("libx264", "mp4"), 43, 46, "zeros.mp4")
                .make(folder);
        FrameIndexCache cache = new FrameIndexCache(folder.resolve("index"));
        ProbedFile fresh = MediaProbe.probe(file, cache, Progress.NONE);
        ProbedFile kept = MediaProbe.probe(file, cache, Progress.NONE);
        assertThat(kept.damage()).isEqualTo(fresh.damage()).hasSize(1);
        assertThat(List.of(kept.warnings())).isEqualTo(List.of(fresh.warnings()));
    }
}
