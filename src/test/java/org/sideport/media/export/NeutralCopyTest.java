package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.media.MediaProbe;
import org.sideport.media.WrittenVideo;
import org.sideport.media.export.Removed.Kind;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/** What is planted in the source by FFmpeg's own muxers must not be in the copy; what FFmpeg reads of both must agree. */
class NeutralCopyTest {

    private static final String TITLE = "planted title 4711";
    private static final String ARTIST = "planted artist 0815";
    private static final String SERIAL = "planted serial ZX-99-31337";
    private static final String DATE = "2021-03-04T05:06:07.000000Z";
    private static final String HANDLER = "planted handler 123";
    private static final String CHAPTER = "planted chapter 456";
    private static final String USER_DATA = "planted user data 789";

    @TempDir
    Path folder;

    private Path source(String muxer, String extension, boolean sei) throws IOException {
        boolean counted = muxer.equals("avi");
        long[] ticks = counted ? Stamped.even(60) : Stamped.uneven(60);
        Path plain = Stamped.write(folder.resolve("plain.mp4"), ticks, 0, 0.5, 0.7);
        if (counted) {
            // AVI wants start codes, which a transport stream has
            plain = new Planted(plain).write(folder.resolve("plain.ts"), "mpegts");
        }
        Planted planted = new Planted(plain)
                .counted(counted ? 25 : 0)
                .tag("title", TITLE)
                .tag("artist", ARTIST)
                .tag("comment", SERIAL)
                .tag("creation_time", DATE)
                .streamTag("handler_name", HANDLER)
                .streamTag("title", HANDLER)
                .streamTag("creation_time", DATE)
                .chapter(CHAPTER);
        if (sei) {
            planted.sei(USER_DATA);
        }
        return planted.write(folder.resolve("in" + extension), muxer);
    }

    @ParameterizedTest
    @CsvSource({"mp4,.mp4", "mov,.mov", "matroska,.mkv", "avi,.avi"})
    void nothingThatWasPlantedIsLeftAndThePacketsAreTheSame(String muxer, String extension) throws Exception {
        Path source = source(muxer, extension, false);
        assertThat(bytes(source)).contains(TITLE);
        Path out = folder.resolve("out" + Container.of(source).extension());
        NeutralCopy.Result result = NeutralCopy.write(source, true, false, out, false, Progress.NONE);

        assertThat(bytes(out)).doesNotContain(TITLE, ARTIST, SERIAL, HANDLER, CHAPTER, "2021-03-04");
        RawPackets.Content before = RawPackets.read(source);
        RawPackets.Content after = RawPackets.read(out);
        assertThat(after.video()).isEqualTo(before.video());
        assertThat(after.audio()).isEqualTo(before.audio());
        assertThat(after.chapters()).isZero();
        assertThat(after.streams()).hasSize(2);
        String harmless = "(major_brand|minor_version|compatible_brands|DURATION)=.*|language=und"
                + "|vendor_id=\\[0]\\[0]\\[0]\\[0]|(?i:encoder)=Lavf|handler_name=";
        assertThat(after.tags()).allMatch(tag -> tag.matches(harmless), "harmless");
        assertThat(after.streams()).allMatch(s -> s.tags().stream().allMatch(tag -> tag.matches(harmless)));
        assertThat(result.removed())
                .anyMatch(r -> r.kind() == Kind.TAG && TITLE.equals(r.value()))
                .anyMatch(r -> r.kind() == Kind.TAG && ARTIST.equals(r.value()));
        assertThat(result.frames()).isEqualTo(60);
        assertThat(result.stillInside()).isEmpty();
        assertThat(result.payloadSha256()).hasSize(2);
    }

    /** 44 bytes of seconds since 1904 and so on: MP4 keeps dates as numbers too, which no text search finds. */
    @Test
    void theDateNumbersOfMp4AreZero() throws IOException {
        Path source = source("mp4", ".mp4", false);
        Path out = folder.resolve("out.mp4");
        NeutralCopy.write(source, true, false, out, false, Progress.NONE);
        // ISO/IEC 14496-12: after type, version and flags, mvhd, tkhd and mdhd begin with creation and change time
        for (String box : List.of("mvhd", "tkhd", "mdhd")) {
            assertThat(dateOf(source, box)).as(box).isNotZero();
            assertThat(dateOf(out, box)).as(box).isZero();
        }
    }

    private static long dateOf(Path file, String box) throws IOException {
        byte[] bytes = Files.readAllBytes(file);
        int at = new String(bytes, StandardCharsets.ISO_8859_1).indexOf(box);
        assertThat(at).isPositive();
        assertThat(bytes[at + 4]).as("version 0").isZero();
        return java.nio.ByteBuffer.wrap(bytes, at + 8, 8).getLong();
    }

    @Test
    void aFileAttachedToTheVideoIsLeftOutAndListed() throws Exception {
        Path plain = Stamped.write(folder.resolve("plain.mp4"), Stamped.even(10), 0);
        Path source = new Planted(plain)
                .attachment("planted-name-123.ttf", "planted content 456")
                .write(folder.resolve("in.mkv"), "matroska");
        assertThat(RawPackets.read(source).streams()).hasSize(2);
        assertThat(bytes(source)).contains("planted-name-123", "planted content 456");
        Path out = folder.resolve("out.mkv");
        NeutralCopy.Result result = NeutralCopy.write(source, true, false, out, false, Progress.NONE);
        assertThat(RawPackets.read(out).streams()).hasSize(1);
        assertThat(bytes(out)).doesNotContain("planted-name-123", "planted content 456");
        assertThat(result.removed())
                .anyMatch(r -> r.kind() == Kind.STREAM && r.name().equals("attachment"))
                .anyMatch(r -> r.kind() == Kind.TAG && "planted-name-123.ttf".equals(r.value()));
    }

    @Test
    void framesKeepTheirTimesInATransportStreamToo() throws Exception {
        Path source = source("mpegts", ".ts", false);
        Path out = folder.resolve("out.ts");
        NeutralCopy.Result result = NeutralCopy.write(source, true, false, out, false, Progress.NONE);
        assertThat(Stamped.times(WrittenVideo.read(out))).isEqualTo(Stamped.micros(Stamped.uneven(60), 0, 60));
        assertThat(result.frames()).isEqualTo(60);
        assertThat(RawPackets.read(out).audio())
                .isEqualTo(RawPackets.read(source).audio());
    }

    @Test
    void theUserDataInsideThePicturesGoesIfAskedAndThePicturesStay() throws Exception {
        Path source = source("mp4", ".mp4", true);
        assertThat(bytes(source)).contains(USER_DATA);
        Path with = folder.resolve("with.mp4");
        NeutralCopy.write(source, true, false, with, false, Progress.NONE);
        assertThat(bytes(with)).contains(USER_DATA);
        Path without = folder.resolve("without.mp4");
        NeutralCopy.Result result = NeutralCopy.write(source, true, true, without, false, Progress.NONE);
        assertThat(bytes(without)).doesNotContain(USER_DATA, "x264");
        assertThat(result.removed()).anyMatch(r -> r.kind() == Kind.SEI);
        List<WrittenVideo.Frame> before = WrittenVideo.read(source).frames();
        List<WrittenVideo.Frame> after = WrittenVideo.read(without).frames();
        assertThat(after).hasSameSizeAs(before);
        for (int i = 0; i < before.size(); i++) {
            assertThat(after.get(i).argb()).isEqualTo(before.get(i).argb());
            assertThat(after.get(i).micros()).isEqualTo(before.get(i).micros());
        }
    }

    @Test
    void withoutSoundTheSoundIsGoneAndListed() throws Exception {
        Path source = source("mp4", ".mp4", false);
        Path out = folder.resolve("out.mp4");
        NeutralCopy.Result result = NeutralCopy.write(source, false, false, out, false, Progress.NONE);
        assertThat(RawPackets.read(out).streams()).hasSize(1);
        assertThat(RawPackets.read(out).video())
                .isEqualTo(RawPackets.read(source).video());
        assertThat(result.removed()).anyMatch(r -> r.kind() == Kind.SOUND);
        assertThat(result.sound()).isFalse();
    }

    @Test
    void rotationStays() throws IOException {
        Path plain = Stamped.write(folder.resolve("plain.mp4"), Stamped.even(10), 0);
        Path source = new Planted(plain).rotated(90).tag("title", TITLE).write(folder.resolve("in.mp4"), "mp4");
        assertThat(MediaProbe.probe(source, Progress.NONE).segment().rotation()).isEqualTo(90);
        Path out = folder.resolve("out.mp4");
        NeutralCopy.write(source, true, false, out, false, Progress.NONE);
        assertThat(MediaProbe.probe(out, Progress.NONE).segment().rotation()).isEqualTo(90);
    }

    /** A tag whose text is also inside the pictures: the copy cannot be said to be free of it. */
    @Test
    void aTagThatIsRepeatedInsideThePicturesIsReported() throws IOException {
        Path plain = Stamped.write(folder.resolve("plain.mp4"), Stamped.even(10), 0);
        Path source =
                new Planted(plain).tag("comment", USER_DATA).sei(USER_DATA).write(folder.resolve("in.mp4"), "mp4");
        assertThat(NeutralCopy.write(source, true, false, folder.resolve("a.mp4"), false, Progress.NONE)
                        .stillInside())
                .containsExactly(USER_DATA);
        assertThat(NeutralCopy.write(source, true, true, folder.resolve("b.mp4"), false, Progress.NONE)
                        .stillInside())
                .isEmpty();
    }

    @Test
    void aCancelledOrRefusedCopyLeavesNothing() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(60), 0, 0.5, 0.7);
        Progress cancelsMidway = new Progress() {
            private boolean cancelled;

            @Override
            public void report(double fraction, String message) {
                cancelled = fraction > 0.3;
            }

            @Override
            public boolean isCancelled() {
                return cancelled;
            }
        };
        Path out = folder.resolve("out.mp4");
        assertThatThrownBy(() -> NeutralCopy.write(source, true, false, out, false, cancelsMidway))
                .isInstanceOf(CancellationException.class);
        Path sound = folder.resolve("no-folder").resolve("out.mp4");
        assertThatThrownBy(() -> NeutralCopy.write(source, true, false, sound, false, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no such folder");
        try (var left = Files.list(folder)) {
            assertThat(left).containsExactly(source);
        }
    }

    @Test
    void proposedNamesTellNothingAndDoNotMeetOthers() throws IOException {
        Path one = Stamped.write(folder.resolve("Name 2021-03-04 a.mp4"), Stamped.even(5), 0);
        Path two = new Planted(one).write(folder.resolve("Name 2021-03-04 b.mkv"), "matroska");
        Path target = Files.createDirectory(folder.resolve("out"));
        List<Path> files = List.of(one, two);
        assertThat(NeutralNames.propose(files, target, null))
                .containsExactly(target.resolve("case-0001_part-01.mp4"), target.resolve("case-0001_part-02.mkv"));
        Files.createFile(target.resolve("case-0001_part-03.mp4"));
        assertThat(NeutralNames.propose(files, target, null).get(0)).isEqualTo(target.resolve("case-0002_part-01.mp4"));
        assertThat(NeutralNames.propose(files, target, "T03").get(1)).isEqualTo(target.resolve("T03_part-02.mkv"));
        assertThatThrownBy(() -> NeutralNames.propose(files, target, "../T03")).isInstanceOf(InputException.class);
    }

    @Test
    void theStampsOfACopyAreThoseOfTheOriginal() throws IOException {
        Path source = source("mp4", ".mp4", false);
        Path out = folder.resolve("out.mp4");
        NeutralCopy.write(source, true, false, out, false, Progress.NONE);
        assertThat(Stamped.stamps(WrittenVideo.read(out)))
                .isEqualTo(IntStream.range(0, 60).boxed().toList());
    }

    private static String bytes(Path file) throws IOException {
        return new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
    }
}
