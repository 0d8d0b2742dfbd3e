package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.FrameIndexer;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.MediaInput;
import org.sideport.media.MediaProbe;
import org.sideport.media.MediaWarning;
import org.sideport.media.WrittenVideo;
import org.sideport.model.Progress;

class RepairTest {

    private static final int FRAMES = 100;

    @TempDir
    Path folder;

    private Path whole() throws IOException {
        return Stamped.write(folder.resolve("whole.mp4"), Stamped.even(FRAMES), 0, 0.5, 0.7, 1.5, 1.7, 2.5, 2.7);
    }

    private Path cut(Path file, String name, double share) throws IOException {
        byte[] bytes = Files.readAllBytes(file);
        return Files.write(folder.resolve(name), Arrays.copyOf(bytes, (int) (bytes.length * share)));
    }

    private static String sha(Path file) {
        return org.sideport.media.FileDigest.sha256(file, Progress.NONE);
    }

    @Test
    void aFileCutShortIsSavedUpToWhereItEnds() throws IOException {
        // its table of contents comes first and promises 100 frames
        Path broken = cut(whole(), "broken.mp4", 0.6);
        String before = sha(broken);
        Path out = folder.resolve("saved.mp4");
        Repair.Result result = Repair.write(broken, out, false, Progress.NONE);
        List<Integer> stamps = Stamped.stamps(WrittenVideo.read(out));
        assertThat(stamps).hasSizeBetween(20, 90).hasSize((int) result.frames());
        // in decoding order the last pictures may depend on ones that are lost; up to there nothing may be missing
        int sure = stamps.size() - 4;
        assertThat(stamps.subList(0, sure))
                .isEqualTo(IntStream.range(0, sure).boxed().toList());
        assertThat(result.promisedUs()).isEqualTo(FRAMES * 40_000L);
        assertThat(result.durationUs()).isLessThan(result.promisedUs());
        assertThat(MediaProbe.probe(broken, Progress.NONE).warnings())
                .anyMatch(w -> w.code() == MediaWarning.Code.CUT_SHORT);
        assertThat(MediaProbe.probe(out, Progress.NONE).warnings())
                .noneMatch(w -> w.code() == MediaWarning.Code.CUT_SHORT || w.code() == MediaWarning.Code.DAMAGED);
        assertThat(sha(broken)).isEqualTo(before);
    }

    @Test
    void anMp4WithoutTableOfContentsIsSaidPlainlyNotToBeReadable() throws IOException {
        Path last = new Planted(whole()).write(folder.resolve("moov-last.mp4"), "mp4");
        String text = new String(Files.readAllBytes(last), StandardCharsets.ISO_8859_1);
        assertThat(text.indexOf("moov")).isGreaterThan(text.indexOf("mdat"));
        Path broken = cut(last, "broken.mp4", 0.6);
        Path out = folder.resolve("saved.mp4");
        assertThatThrownBy(() -> Repair.write(broken, out, false, Progress.NONE))
                .isInstanceOf(MediaException.class)
                .hasMessageContaining("moov")
                .hasMessageContaining("nothing can be saved")
                .extracting(e -> ((MediaException) e).reason())
                .isEqualTo(Reason.UNFINISHED);
        assertThat(out).doesNotExist();
    }

    @Test
    void aFragmentedMp4IsSavedUpToItsLastWholeFragment() throws IOException {
        Path fragmented = new Planted(whole())
                .muxing("movflags", "+frag_keyframe+empty_moov")
                .write(folder.resolve("fragmented.mp4"), "mp4");
        Path broken = cut(fragmented, "broken.mp4", 0.6);
        Path out = folder.resolve("saved.mp4");
        Repair.Result result = Repair.write(broken, out, false, Progress.NONE);
        List<Integer> stamps = Stamped.stamps(WrittenVideo.read(out));
        // key frames every 25: 60 % of the file hold at least two whole fragments
        assertThat(stamps.size()).isBetween(50, 90).isEqualTo((int) result.frames());
        assertThat(stamps.subList(0, 50))
                .isEqualTo(IntStream.range(0, 50).boxed().toList());
    }

    @Test
    void aTransportStreamCutWithinAPacketIsSaved() throws IOException {
        Path stream = new Planted(whole()).write(folder.resolve("whole.ts"), "mpegts");
        byte[] bytes = Files.readAllBytes(stream);
        // not a multiple of 188 bytes: the last packet is cut
        Path broken =
                Files.write(folder.resolve("broken.ts"), Arrays.copyOfRange(bytes, 0, bytes.length * 7 / 10 + 33));
        Path out = folder.resolve("saved.ts");
        Repair.Result result = Repair.write(broken, out, false, Progress.NONE);
        List<Integer> stamps = Stamped.stamps(WrittenVideo.read(out));
        assertThat(result.frames()).isBetween(50L, 90L);
        int sure = stamps.size() - 4;
        assertThat(stamps.subList(0, sure))
                .isEqualTo(IntStream.range(0, sure).boxed().toList());
    }

    @Test
    void anAviWithoutIndexGetsOne() throws IOException {
        Path ts = new Planted(whole()).write(folder.resolve("whole.ts"), "mpegts");
        Path avi = new Planted(ts).counted(25).write(folder.resolve("whole.avi"), "avi");
        byte[] bytes = Files.readAllBytes(avi);
        int index = new String(bytes, StandardCharsets.ISO_8859_1).lastIndexOf("idx1");
        assertThat(index).isPositive();
        Path broken = Files.write(folder.resolve("broken.avi"), Arrays.copyOf(bytes, index));
        Path out = folder.resolve("saved.avi");
        Repair.Result result = Repair.write(broken, out, false, Progress.NONE);
        assertThat(new String(Files.readAllBytes(out), StandardCharsets.ISO_8859_1))
                .contains("idx1");
        assertThat(result.frames()).isEqualTo(FRAMES);
        assertThat(Stamped.stamps(WrittenVideo.read(out)))
                .isEqualTo(IntStream.range(0, FRAMES).boxed().toList());
    }

    @Test
    void aMatroskaFileCutShortIsSaved() throws IOException {
        Path mkv = new Planted(whole()).write(folder.resolve("whole.mkv"), "matroska");
        Path broken = cut(mkv, "broken.mkv", 0.6);
        Path out = folder.resolve("saved.mkv");
        Repair.Result result = Repair.write(broken, out, false, Progress.NONE);
        List<Integer> stamps = Stamped.stamps(WrittenVideo.read(out));
        assertThat(result.frames()).isBetween(40L, 90L);
        int sure = stamps.size() - 4;
        assertThat(stamps.subList(0, sure))
                .isEqualTo(IntStream.range(0, sure).boxed().toList());
    }

    /** Two transport streams one behind the other: the clock of the second begins anew. */
    @Test
    void aClockThatBeginsAnewRunsOnInTheCopy() throws IOException {
        Path one = new Planted(Stamped.write(folder.resolve("a.mp4"), Stamped.even(50), 0))
                .write(folder.resolve("a.ts"), "mpegts");
        Path two = new Planted(Stamped.write(folder.resolve("b.mp4"), Stamped.even(50), 50))
                .write(folder.resolve("b.ts"), "mpegts");
        Path joined = folder.resolve("joined.ts");
        Files.write(joined, Files.readAllBytes(one));
        Files.write(joined, Files.readAllBytes(two), java.nio.file.StandardOpenOption.APPEND);
        // as it is, half of the frames would be missing from any copy, and that is said
        assertThatThrownBy(() ->
                        Proxy.write(List.of(joined), 90, false, folder.resolve("small.mp4"), false, Progress.NONE))
                .hasMessageContaining("clock began anew")
                .hasMessageContaining("repair");
        assertThatThrownBy(
                        () -> NeutralCopy.write(joined, true, false, folder.resolve("copy.ts"), false, Progress.NONE))
                .hasMessageContaining("repair");
        Path out = folder.resolve("saved.ts");
        Repair.Result result = Repair.write(joined, out, false, Progress.NONE);
        assertThat(result.runs()).isEqualTo(2);
        List<Integer> stamps = Stamped.stamps(WrittenVideo.read(out));
        assertThat(stamps).isEqualTo(IntStream.range(0, 100).boxed().toList());
        try (MediaInput input = MediaInput.open(out)) {
            // 2 s and 2 s; the join may be off by the pictures that wait for reordering
            assertThat(FrameIndexer.index(input, Progress.NONE).durationUs()).isBetween(3_900_000L, 4_200_000L);
        }
    }
}
