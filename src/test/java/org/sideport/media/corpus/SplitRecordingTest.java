package org.sideport.media.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.media.MediaWarning;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.NaturalOrder;
import org.sideport.model.Progress;
import org.sideport.model.Segment;
import org.sideport.model.SegmentJoin;
import org.sideport.model.SegmentJoin.Kind;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.RecordingPreview;

/**
 * Recordings in several files, made by cutting one stream of 25 frames a second, 40 ms each, or from several: what
 * is missing between them, or shown twice, follows from how they were made.
 */
class SplitRecordingTest {

    private static final int RATE = 25;
    private static final int COUNT = 120;
    private static final int GOP = 12;

    @TempDir
    Path folder;

    private static StampedFile stream(String coder, String container) {
        // the muxer of program streams moves a clock that starts before half a second
        long offset = container.equals("vob") ? 100 : 0;
        return StampedFile.frames(COUNT, RATE)
                .as(coder, container)
                .gop(GOP)
                .scene(1)
                .offset(offset);
    }

    private Path part(String name, StampedFile whole, int from, int to, boolean clockFromZero) throws IOException {
        Path file = folder.resolve(name);
        whole.filter(s -> s.number() >= from && s.number() < to ? s : null)
                .offset(clockFromZero ? -from : whole.offset)
                .write(file);
        return file;
    }

    private static RecordingPreview probe(Path... files) {
        return ImportRecording.probe(List.of(files), Progress.NONE);
    }

    private static SegmentJoin only(RecordingPreview preview) {
        assertThat(preview.joins()).hasSize(1);
        return preview.joins().get(0);
    }

    private static List<Code> codes(RecordingPreview preview) {
        return preview.warnings().stream()
                .map(MediaWarning::code)
                .filter(c -> c != Code.IDENTITY_IN_NAME && c != Code.TIMES_GUESSED && c != Code.IDENTITY_IN_TAGS)
                .toList();
    }

    /** A clock that runs on proves it, and so do moving pictures alone where each file counts from zero. */
    @ParameterizedTest
    @CsvSource({
        "libx264, mpegts, false",
        "mpeg2video, vob, false",
        "libx264, matroska, false",
        "libx264, mpegts, true",
        "libx264, matroska, true",
        "libx264, mp4, true"
    })
    void theHalvesOfOneStreamAreContinuous(String coder, String container, boolean clockFromZero) throws Exception {
        RecordingPreview preview = probe(
                part("part1", stream(coder, container), 0, 60, clockFromZero),
                part("part2", stream(coder, container), 60, COUNT, clockFromZero));
        SegmentJoin join = only(preview);
        assertThat(join.kind()).as(join.toString()).isEqualTo(Kind.CONTINUOUS);
        assertThat(join.gapUs()).isZero();
        assertThat(preview.continuous()).isTrue();
        assertThat(codes(preview)).isEmpty();
        assertThat(preview.recording().duration().micros()).isEqualTo(COUNT * 40_000L);
    }

    /** Frames 60 to 83 are gone: 24 x 40 ms. The files stay end to end. */
    @ParameterizedTest
    @CsvSource({"libx264, mpegts", "libx264, matroska"})
    void aPieceThatIsMissingWhileTheClockRanIsLostWithItsLength(String coder, String container) throws Exception {
        RecordingPreview preview = probe(
                part("part1", stream(coder, container), 0, 60, false),
                part("part2", stream(coder, container), 84, COUNT, false));
        SegmentJoin join = only(preview);
        assertThat(join.kind()).as(join.toString()).isEqualTo(Kind.LOST);
        assertThat(join.gapUs()).isBetween(960_000L - 1_100, 960_000L + 1_100);
        assertThat(preview.continuous()).isFalse();
        assertThat(codes(preview)).containsExactly(Code.GAP);
        assertThat(preview.recording().duration().micros()).isEqualTo((60 + 36) * 40_000L);
    }

    /** Packets from 130 on: the next key picture is 132, so frames 60 to 131 are shown by neither file. */
    @Test
    void aLongPieceThatEndsWithinAGroupOfPicturesIsLostToo() throws Exception {
        StampedFile long1 =
                StampedFile.frames(200, RATE).as("libx264", "mpegts").gop(GOP).scene(1);
        StampedFile long2 =
                StampedFile.frames(200, RATE).as("libx264", "mpegts").gop(GOP).scene(1);
        RecordingPreview preview = probe(part("part1", long1, 0, 60, false), part("part2", long2, 130, 200, false));
        SegmentJoin join = only(preview);
        assertThat(join.kind()).as(join.toString()).isEqualTo(Kind.LOST);
        // 132 is the next multiple of 12
        assertThat(join.gapUs()).isEqualTo((132 - 60) * 40_000L);
    }

    /** Where each file counts from zero, nothing tells how long, nor who: only that the picture jumps. */
    @Test
    void aPieceThatIsMissingWithoutAClockIsUnknownAndNeverContinuous() throws Exception {
        RecordingPreview preview = probe(
                part("part1.mp4", stream("libx264", "mp4"), 0, 60, true),
                part("part2.mp4", stream("libx264", "mp4"), 84, COUNT, true));
        SegmentJoin join = only(preview);
        assertThat(join.kind()).as(join.toString()).isEqualTo(Kind.UNKNOWN);
        assertThat(join.gapUs()).isNull();
        assertThat(preview.continuous()).isNull();
        assertThat(join.evidence()).anyMatch(e -> e.text().contains("jumps"));
    }

    /** The clock of the stream goes on for 750 frames, 30 s, in which nothing was written. */
    @Test
    void aPauseInWhichTheClockWentOnIsAPauseWithItsLength() throws Exception {
        RecordingPreview preview = probe(
                part("part1.ts", stream("libx264", "mpegts"), 0, 60, false),
                part("part2.ts", stream("libx264", "mpegts").scene(2).offset(750), 60, 108, false));
        SegmentJoin join = only(preview);
        assertThat(join.kind()).as(join.toString()).isEqualTo(Kind.PAUSED);
        assertThat(join.gapUs()).isEqualTo(30_000_000);
        assertThat(preview.continuous()).isFalse();
    }

    /** Files of 60 frames, 2.4 s, made 300 s apart: 297.6 s are in neither, to the second that the tags are good for. */
    @Test
    void creationTimesTellOfAPauseWhereFilesCountFromZero() throws Exception {
        RecordingPreview preview = probe(
                part("part1.mp4", stream("libx264", "mp4").tag("creation_time", "2026-03-09T10:00:00Z"), 0, 60, true),
                part(
                        "part2.mp4",
                        stream("libx264", "mp4").scene(2).tag("creation_time", "2026-03-09T10:05:00Z"),
                        60,
                        COUNT,
                        true));
        SegmentJoin join = only(preview);
        assertThat(join.kind()).as(join.toString()).isEqualTo(Kind.PAUSED);
        assertThat(join.gapUs()).isEqualTo(297_600_000);
    }

    /** The recorder's clock stood still, 0 frames between, while that of the day went on. */
    @Test
    void aClockThatStoodStillWhileTheDayWentOnIsAPause() throws Exception {
        RecordingPreview preview = probe(
                part(
                        "part1.mkv",
                        stream("libx264", "matroska").tag("creation_time", "2026-03-09T10:00:00Z"),
                        0,
                        60,
                        false),
                part(
                        "part2.mkv",
                        stream("libx264", "matroska").scene(2).tag("creation_time", "2026-03-09T10:05:00Z"),
                        60,
                        COUNT,
                        false));
        SegmentJoin join = only(preview);
        assertThat(join.kind()).as(join.toString()).isEqualTo(Kind.PAUSED);
        assertThat(join.gapUs()).isEqualTo(297_600_000);
    }

    @Test
    void clocksThatStartAnewAndPicturesOfAnotherSceneTellNothing() throws Exception {
        RecordingPreview preview = probe(
                part("part1.ts", stream("libx264", "mpegts"), 0, 60, true),
                part("part2.ts", stream("libx264", "mpegts").scene(2), 0, 60, true));
        SegmentJoin join = only(preview);
        assertThat(join.kind()).as(join.toString()).isEqualTo(Kind.UNKNOWN);
        assertThat(join.gapUs()).isNull();
        assertThat(preview.continuous()).isNull();
        assertThat(preview.proposedOrder()).isEmpty();
    }

    /** All pictures are alike, before, after and across: a minute could be missing. */
    @Test
    void picturesInWhichNothingMovesTellNothing() throws Exception {
        StampedFile still = StampedFile.frames(60, RATE).size(64, 48).gop(GOP);
        still.write(folder.resolve("part1.mp4"));
        still.write(folder.resolve("part2.mp4"));
        RecordingPreview preview = probe(folder.resolve("part1.mp4"), folder.resolve("part2.mp4"));
        assertThat(only(preview).kind()).isEqualTo(Kind.UNKNOWN);
        assertThat(preview.continuous()).isNull();
    }

    /** The second file starts 12 frames, 480 ms, before the first ends. */
    @ParameterizedTest
    @CsvSource({"mp4, true, 20", "mp4, true, 26", "mpegts, false, 20", "mpegts, true, 26"})
    void anOverlapIsToldWithItsLengthAlsoIfTheSecondFileIsCodedAnew(String container, boolean fromZero, String quality)
            throws Exception {
        RecordingPreview preview = probe(
                part("part1", stream("libx264", container), 0, 60, fromZero),
                part("part2", stream("libx264", container).coderOption("crf", quality), 48, COUNT, fromZero));
        SegmentJoin join = only(preview);
        assertThat(join.gapUs()).as(join.toString()).isEqualTo(-480_000);
        assertThat(join.kind()).isEqualTo(Kind.CONTINUOUS);
        assertThat(join.overlapUs()).isEqualTo(480_000);
        assertThat(preview.continuous()).isFalse();
        assertThat(preview.warnings())
                .filteredOn(w -> w.code() == Code.PICTURES_OVERLAP)
                .singleElement()
                .satisfies(w -> {
                    assertThat(w.segment()).isEqualTo(1);
                    assertThat(w.text()).contains("0.48 s");
                });
    }

    @Test
    void partTwoComesBeforePartTenAndNothingIsDoubtful() throws Exception {
        Path ten = part("part10.ts", stream("libx264", "mpegts"), 60, COUNT, false);
        Path two = part("part2.ts", stream("libx264", "mpegts"), 0, 60, false);
        RecordingPreview preview = ImportRecording.probe(NaturalOrder.sorted(List.of(ten, two)), Progress.NONE);
        assertThat(preview.segments()).extracting(Segment::file).containsExactly(two, ten);
        assertThat(preview.continuous()).isTrue();
        assertThat(codes(preview)).isEmpty();
    }

    /** Names that say the opposite of what is inside: by a clock that runs on, by creation times, by pictures. */
    @ParameterizedTest
    @CsvSource({"mpegts, false, '', ''", "mp4, true, 2026-03-09T10:00:00Z, 2026-03-09T10:00:03Z", "mp4, true, '', ''"})
    void namesThatContradictWhatIsInsideAreDoubtedAndNothingIsReordered(
            String container, boolean fromZero, String first, String second) throws Exception {
        Path late = part("a", tagged(stream("libx264", container), second), 60, COUNT, fromZero);
        Path early = part("b", tagged(stream("libx264", container), first), 0, 60, fromZero);
        RecordingPreview preview = ImportRecording.probe(NaturalOrder.sorted(List.of(early, late)), Progress.NONE);
        assertThat(preview.segments()).extracting(Segment::file).containsExactly(late, early);
        assertThat(preview.proposedOrder()).containsExactly(early, late);
        assertThat(codes(preview)).contains(Code.ORDER_DOUBTFUL);
        RecordingPreview asProposed = ImportRecording.probe(preview.proposedOrder(), Progress.NONE);
        assertThat(asProposed.proposedOrder()).isEmpty();
        assertThat(codes(asProposed)).isEmpty();
        assertThat(asProposed.continuous()).isTrue();
    }

    private static StampedFile tagged(StampedFile recipe, String creation) {
        return creation.isEmpty() ? recipe : recipe.tag("creation_time", creation);
    }

    /** Still pictures, no clock: only the times of change are left. Ten frames, ten seconds each. */
    @Test
    void timesOfChangeAreWeakAndUsedLast() throws Exception {
        Path one = folder.resolve("a.mp4");
        Path two = folder.resolve("b.mp4");
        for (Path file : List.of(one, two)) {
            StampedFile.frames(10, 1).size(64, 48).write(file);
        }
        Instant end = Instant.parse("2026-03-09T10:00:10Z");
        Files.setLastModifiedTime(one, FileTime.from(end.plusSeconds(10)));
        Files.setLastModifiedTime(two, FileTime.from(end));
        assertThat(probe(one, two).proposedOrder()).containsExactly(two, one);
        // copied both at once: nothing is said
        Files.setLastModifiedTime(one, FileTime.from(end.plusSeconds(1)));
        assertThat(probe(one, two).proposedOrder()).isEmpty();
    }

    /** Three files: what is known of one border says nothing of the other. */
    @Test
    void oneUnknownBorderMakesTheWholeUnknownAndOneLossMakesItBroken() throws Exception {
        Path one = part("1.ts", stream("libx264", "mpegts"), 0, 36, false);
        Path two = part("2.ts", stream("libx264", "mpegts"), 36, 72, false);
        Path gap = part("3.ts", stream("libx264", "mpegts"), 84, COUNT, false);
        Path other = part("4.ts", stream("libx264", "mpegts").scene(2), 0, 36, true);
        assertThat(probe(one, two).continuous()).isTrue();
        assertThat(probe(one, two, gap).joins())
                .extracting(SegmentJoin::kind)
                .containsExactly(Kind.CONTINUOUS, Kind.LOST);
        assertThat(probe(one, two, gap).continuous()).isFalse();
        assertThat(probe(one, two, other).joins())
                .extracting(SegmentJoin::kind)
                .containsExactly(Kind.CONTINUOUS, Kind.UNKNOWN);
        assertThat(probe(one, two, other).continuous()).isNull();
    }

    @Test
    void oneFileIsContinuousUnlessItsClockJumps() throws Exception {
        Path plain = part("1.ts", stream("libx264", "mpegts"), 0, 36, false);
        assertThat(probe(plain).continuous()).isTrue();
        assertThat(probe(plain).joins()).isEmpty();
        Path joined = Damage.joined(
                        StampedFile.frames(50, RATE).as("libx264", "mpegts").offset(100),
                        StampedFile.frames(50, RATE).as("libx264", "mpegts").stampsFrom(50),
                        "ts")
                .make(folder);
        assertThat(probe(joined).continuous()).isFalse();
    }
}
