package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVInputFormat;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.global.avformat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.media.WrittenVideo;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/** FFmpeg's own demuxers read the chapters back; pictures are compared with the source's. */
class ChapterCopyTest {

    @TempDir
    Path folder;

    private static final List<Chapter> CHAPTERS = List.of(
            new Chapter(500_123, 1_000_001, "Incision"),
            new Chapter(1_000_001, 1_500_000, "Rhexis; = # \\ Ü手"),
            new Chapter(1_900_000, 2_200_777, "Implantation"));

    private static List<Chapter> read(Path file, long firstUs) {
        AVFormatContext context = new AVFormatContext(null);
        assertThat(avformat.avformat_open_input(context, file.toString(), (AVInputFormat) null, (AVDictionary) null))
                .isZero();
        List<Chapter> found = Chapters.of(context, firstUs);
        avformat.avformat_close_input(context);
        return found;
    }

    /** RFC 9559: Matroska keeps nanoseconds and gaps. MP4 keeps milliseconds and no gap (measured). */
    @ParameterizedTest
    @CsvSource({"matroska,.mkv,true", "mp4,.mp4,false", "mov,.mov,false"})
    void chaptersGoIntoTheCopyAndNothingElseChanges(String muxer, String ending, boolean exact) throws IOException {
        Path plain = Stamped.write(folder.resolve("plain.mp4"), Stamped.uneven(60), 0, 0.5, 0.7);
        Path source = new Planted(plain)
                .tag("title", "planted title 4711")
                .chapter("planted chapter 456")
                .write(folder.resolve("in" + ending), muxer);
        Path out = folder.resolve("out" + ending);
        NeutralCopy.Result result = NeutralCopy.withChapters(source, true, CHAPTERS, out, false, Progress.NONE);
        WrittenVideo before = WrittenVideo.read(source);
        WrittenVideo after = WrittenVideo.read(out);
        // a player shows the first frame at this time of the file's own clock, and so must chapters count
        List<Chapter> found = read(out, after.frames().get(0).micros());
        if (exact) {
            assertThat(found).isEqualTo(CHAPTERS);
            assertThat(result.chapterRoundingUs()).isZero();
        } else {
            assertThat(found)
                    .extracting(Chapter::title)
                    .containsExactly("–", "Incision", "Rhexis; = # \\ Ü手", "–", "Implantation", "–");
            assertThat(found.get(1).startUs()).isBetween(500_000L, 501_000L);
            assertThat(found.get(4).endUs()).isBetween(2_200_000L, 2_201_000L);
            assertThat(result.chapterRoundingUs()).isBetween(1L, 1000L);
        }
        assertThat(after.frames()).hasSameSizeAs(before.frames());
        assertThat(Files.readString(out, StandardCharsets.ISO_8859_1))
                .doesNotContain("planted title 4711", "planted chapter");
        assertThat(String.join(" ", after.tags())).doesNotContain("planted");
    }

    @Test
    void aFileWithoutAPlaceForChaptersIsRefusedAndNothingIsLeft() throws IOException {
        Path plain = Stamped.write(folder.resolve("plain.mp4"), Stamped.even(30), 0);
        Path source = new Planted(plain).write(folder.resolve("in.ts"), "mpegts");
        Path out = folder.resolve("out.ts");
        assertThatThrownBy(() -> NeutralCopy.withChapters(source, true, CHAPTERS, out, false, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no place for chapters");
        assertThat(out).doesNotExist();
    }
}
