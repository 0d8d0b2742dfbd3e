package org.sideport.media.hostile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.MediaProbe;
import org.sideport.media.ProbedFile;
import org.sideport.media.RecordingFrames;
import org.sideport.media.corpus.StampedFile;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** Whatever somebody may point the program at, and what comes of it: a reason, or the numbers by which it was made. */
class BadInputTest {

    @FunctionalInterface
    interface Maker {
        Path make(Path folder) throws IOException;
    }

    /**
     * @param refused {@code null} if it is read
     * @param frames number of frames
     * @param durationUs from the first frame's start to the last one's end
     */
    record Row(String what, Maker maker, @Nullable Reason refused, long frames, long durationUs) {
        @Override
        public String toString() {
            return what;
        }
    }

    private static Row refused(String what, Reason reason, Maker maker) {
        return new Row(what, maker, reason, 0, 0);
    }

    private static Row read(String what, long frames, long durationUs, Maker maker) {
        return new Row(what, maker, null, frames, durationUs);
    }

    private static Row named(String name) {
        return read("named " + name.replace("\n", "\\n"), 5, 200_000, folder -> recipe(folder, name, tiny(5, 25)));
    }

    private static StampedFile tiny(int frames, int rate) {
        return StampedFile.frames(frames, rate).size(64, 48);
    }

    private static Path recipe(Path folder, String name, StampedFile recipe) throws IOException {
        // the test's own writer passes the name to the library unchanged; a plain name is given first
        Path made = folder.resolve("made.mp4");
        recipe.write(made);
        return Files.move(made, folder.resolve(name));
    }

    static List<Row> rows() {
        return List.of(
                refused("nothing there", Reason.NOT_FOUND, f -> f.resolve("absent.mp4")),
                refused("zero bytes", Reason.EMPTY, f -> Files.createFile(f.resolve("zero.mp4"))),
                refused("a directory", Reason.UNREADABLE, f -> Files.createDirectory(f.resolve("folder.mp4"))),
                refused("text named mp4", Reason.NO_VIDEO, f -> text(f, "Operation notes\n".repeat(50))),
                refused(
                        "subtitles named mp4",
                        Reason.NO_VIDEO,
                        f -> text(f, "1\n00:00:00,000 --> 00:00:01,000\nA\n\n")),
                refused("zeros", Reason.NO_VIDEO, f -> Files.write(f.resolve("zeros.mp4"), new byte[100_000])),
                refused("DICM and nothing else", Reason.CUT_SHORT, f -> {
                    byte[] head = Arrays.copyOf(new byte[0], 132);
                    System.arraycopy("DICM".getBytes(StandardCharsets.US_ASCII), 0, head, 128, 4);
                    return Files.write(f.resolve("a.mp4"), head);
                }),
                refused("a play list of other files", Reason.NO_VIDEO, BadInputTest::playList),
                refused("a list of files to join", Reason.NO_VIDEO, BadInputTest::joinList),
                refused("a loop of links", Reason.NOT_FOUND, f -> {
                    Path a = f.resolve("a.mp4");
                    Path b = f.resolve("b.mp4");
                    Files.createSymbolicLink(a, b);
                    return Files.createSymbolicLink(b, a);
                }),
                refused("not allowed to read", Reason.UNREADABLE, BadInputTest::forbidden),
                refused(
                        "sound only",
                        Reason.NO_VIDEO,
                        f -> recipe(f, "a.mp4", tiny(5, 25).noPictures().sound(0, 1))),
                read("a link to a recording", 5, 200_000, f -> {
                    Path real = recipe(f, "real.mp4", tiny(5, 25));
                    return Files.createSymbolicLink(f.resolve("link.mp4"), real);
                }),
                read("two frames", 2, 80_000, f -> recipe(f, "a.mp4", tiny(2, 25))),
                read("one pixel", 3, 120_000, f -> {
                    Path file = f.resolve("a.avi");
                    StampedFile.frames(3, 25).size(1, 1).as("ffv1", "avi").write(file);
                    return file;
                }),
                // 7680 x 4320 in a coder that is quick; three frames at 10 a second
                read("8K", 3, 300_000, f -> {
                    Path file = f.resolve("a.avi");
                    StampedFile.frames(3, 10)
                            .size(7680, 4320)
                            .as("mjpeg", "avi")
                            .write(file);
                    return file;
                }),
                read("120 frames a second", 60, 500_000, f -> recipe(f, "a.mp4", tiny(60, 120))),
                // one frame in two seconds
                read(
                        "half a frame a second",
                        4,
                        8_000_000,
                        f -> recipe(f, "a.mp4", tiny(4, 1).ticks(2, 1))),
                // 61 pictures a minute apart, the last for a tick of a second
                read(
                        "an hour of stills",
                        61,
                        3_601_000_000L,
                        f -> recipe(
                                f,
                                "a.mp4",
                                StampedFile.at(
                                                1,
                                                LongStream.rangeClosed(0, 60)
                                                        .map(m -> m * 60)
                                                        .toArray())
                                        .size(64, 48))),
                named("it's \"quoted\".mp4"),
                named("two\nlines.mp4"),
                named("Übung – größer.mp4"),
                named("12:30:00.mp4"),
                named("http:x.mp4"),
                named("-i.mp4"),
                named("a|b,c%03d.mp4"),
                named("no ending"));
    }

    private static Path text(Path folder, String text) throws IOException {
        return Files.writeString(folder.resolve("text.mp4"), text);
    }

    /** RFC 8216: would have the reader open whatever it names. */
    private static Path playList(Path folder) throws IOException {
        recipe(folder, "other.ts", tiny(5, 25).as("libx264", "mpegts"));
        return text(
                folder, "#EXTM3U\n#EXT-X-VERSION:3\n#EXT-X-TARGETDURATION:1\n#EXTINF:0.2,\nother.ts\n#EXT-X-ENDLIST\n");
    }

    private static Path joinList(Path folder) throws IOException {
        recipe(folder, "other.mp4", tiny(5, 25));
        return text(folder, "ffconcat version 1.0\nfile other.mp4\n");
    }

    private static Path forbidden(Path folder) throws IOException {
        Path file = recipe(folder, "a.mp4", tiny(5, 25));
        assumeTrue(FileSystems.getDefault().supportedFileAttributeViews().contains("posix"), "no permissions here");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("---------"));
        assumeTrue(!Files.isReadable(file), "whoever runs the tests may read everything");
        return file;
    }

    @TempDir
    Path folder;

    @ParameterizedTest
    @MethodSource("rows")
    void isRefusedWithAReasonOrMeasured(Row row) throws IOException {
        Path file;
        try {
            file = row.maker().make(folder);
        } catch (java.nio.file.InvalidPathException | UnsupportedOperationException e) {
            assumeTrue(false, "this file system has no such names or links");
            return;
        }
        if (row.refused() != null) {
            assertThatThrownBy(() -> MediaProbe.probe(file, Progress.NONE))
                    .isInstanceOfSatisfying(MediaException.class, e -> {
                        assertThat(e.reason()).as(e.getMessage()).isEqualTo(row.refused());
                        assertThat(e.remedy()).isNotBlank();
                        assertThat(e.where()).contains(file.getFileName().toString());
                    });
            return;
        }
        ProbedFile probed = MediaProbe.probe(file, Progress.NONE);
        assertThat(probed.segment().frames()).isEqualTo(row.frames());
        assertThat(probed.segment().durationUs()).isEqualTo(row.durationUs());
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            FrameRef last = frames.frameAt(MediaTime.ofMicros(row.durationUs() - 1));
            assertThat(last.number()).isEqualTo(row.frames() - 1);
            FramePicture picture = frames.picture(last);
            assertThat(picture.width()).isEqualTo(probed.segment().width());
        }
    }

    /** A recorder writes on while the file is read: frame times of one half and the digest of another must not mix. */
    @Test
    void aFileThatIsStillBeingWrittenIsRefusedUntilItIsWhole() throws Exception {
        Path whole = folder.resolve("whole.ts");
        StampedFile.frames(100, 25).size(64, 48).as("libx264", "mpegts").write(whole);
        byte[] bytes = Files.readAllBytes(whole);
        Path growing = Files.write(folder.resolve("growing.ts"), Arrays.copyOf(bytes, bytes.length / 2));
        AtomicBoolean grown = new AtomicBoolean();
        Progress recorder = (fraction, message) -> {
            if (grown.compareAndSet(false, true)) {
                try {
                    Files.write(growing, bytes);
                } catch (IOException e) {
                    throw new java.io.UncheckedIOException(e);
                }
            }
        };
        assertThatThrownBy(() -> MediaProbe.probe(growing, recorder))
                .isInstanceOf(MediaException.class)
                .hasMessageContaining("still being recorded or copied")
                .hasMessageContaining("wait until");
        assertThat(grown).isTrue();
        ProbedFile later = MediaProbe.probe(growing, Progress.NONE);
        assertThat(later.segment().frames()).isEqualTo(100);
    }
}
