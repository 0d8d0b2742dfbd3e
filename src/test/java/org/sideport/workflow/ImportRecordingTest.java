package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.sideport.workflow.Unit.DATA;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.MediaWarning;
import org.sideport.media.MediaWarning.Code;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

/** Lengths, frames and sizes of the demo recordings are those of their truth files, written by what drew them. */
class ImportRecordingTest {

    private static final Path PART9 = DATA.resolve("D-001_part9.mp4");
    private static final Path PART10 = DATA.resolve("D-001_part10.mp4");
    private static final Path WHOLE = DATA.resolve("D-002.mp4");

    @TempDir
    Path temp;

    private Workspace workspace;
    private ImportRecording job;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        job = new ImportRecording(workspace);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static NewCase details(String code) {
        return new NewCase(code, "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of("eye", "left", "pupil", " "));
    }

    @Test
    void partNineComesBeforePartTenAndTheCaseIsStoredWithBoth() throws Exception {
        RecordingPreview preview = job.preview(List.of(PART10, PART9), Progress.NONE);
        assertThat(preview.segments()).extracting(Segment::file).containsExactly(PART9, PART10);
        assertThat(preview.segments()).extracting(Segment::frames).containsExactly(925L, 1303L);
        assertThat(preview.segments()).extracting(Segment::durationUs).containsExactly(37_000_000L, 52_120_000L);
        assertThat(preview.segments().get(1).sha256())
                .isEqualTo(HexFormat.of()
                        .formatHex(MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(PART10))));

        job.addCase(details(" D-001 "), preview);
        SurgicalCase stored = workspace.read(s -> s.cases().get("D-001"));
        assertThat(stored.descriptors()).isEqualTo(Map.of("eye", "left"));
        Recording recording = stored.recording();
        assertThat(recording).isEqualTo(new Recording(preview.segments()));
        // 37.00 s + 52.12 s
        assertThat(recording.duration()).isEqualTo(MediaTime.ofMicros(89_120_000));
    }

    @Test
    void aPersonMayChooseAnotherOrderAndItsWarningsMoveWithTheFiles() throws IOException {
        Path cut = Files.write(temp.resolve("cut.mp4"), firstPart(WHOLE));
        RecordingPreview preview = job.preview(List.of(PART9, cut), Progress.NONE);
        assertThat(preview.segments()).extracting(Segment::file).containsExactly(cut, PART9);
        RecordingPreview other = job.reorder(preview, List.of(PART9, cut));
        assertThat(other.segments()).extracting(Segment::file).containsExactly(PART9, cut);
        assertThat(other.segments()).containsExactlyInAnyOrderElementsOf(preview.segments());
        long readable = preview.segments().get(0).durationUs();
        // the file ends too early at its own end, wherever it stands; part 9 is 37 s long
        assertThat(cutShortAt(preview)).containsExactly(readable);
        assertThat(cutShortAt(other)).containsExactly(37_000_000 + readable);
        assertThat(job.reorder(other, List.of(cut, PART9))).isEqualTo(preview);
    }

    private static List<Long> cutShortAt(RecordingPreview preview) {
        return preview.warnings().stream()
                .filter(w -> w.code() == Code.CUT_SHORT)
                .map(MediaWarning::atUs)
                .toList();
    }

    @Test
    void oneFileTwiceIsWarnedOfOnceAlsoAfterReordering() throws IOException {
        Path copy = Files.copy(PART9, temp.resolve("copy.mp4"));
        RecordingPreview preview = job.preview(List.of(PART9, copy), Progress.NONE);
        RecordingPreview other = job.reorder(preview, List.of(PART9, copy));
        for (RecordingPreview one : List.of(preview, other)) {
            assertThat(one.warnings())
                    .filteredOn(w -> w.code() == Code.SAME_FILE_TWICE)
                    .hasSize(1);
        }
        assertThat(other.warnings()).anySatisfy(w -> {
            assertThat(w.text()).isEqualTo("copy.mp4 is in the list twice.");
            assertThat(w.segment()).isEqualTo(1);
        });
    }

    @Test
    void aFileThatAnotherCaseHasIsWarnedOfWithThatCasesCode() throws IOException {
        job.addCase(details("D-001"), job.preview(List.of(PART9), Progress.NONE));
        Path copy = Files.copy(PART9, temp.resolve("renamed.mp4"));
        RecordingPreview preview = job.preview(List.of(copy, PART10), Progress.NONE);
        List<String> texts = preview.warnings().stream()
                .filter(w -> w.code() == Code.SAME_FILE_TWICE)
                .map(MediaWarning::text)
                .toList();
        assertThat(texts).containsExactly("renamed.mp4 belongs to case D-001 already.");
        assertThat(job.reorder(preview, List.of(PART10, copy)).warnings())
                .filteredOn(w -> w.code() == Code.SAME_FILE_TWICE)
                .singleElement()
                .satisfies(w -> assertThat(w.segment()).isEqualTo(1));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "two words", "-1", "a/b", "x;y", "12345678901234567890123456789012345678901"})
    void whatIsNoCodeIsRefused(String code) {
        refused(() -> job.addCase(details(code), null), "cannot be the code of a case", "never a person's name");
        refused(
                () -> job.addCase(new NewCase("C-01", code, LocalDate.EPOCH, "phaco", Map.of()), null),
                "cannot be the code of a trainee",
                "40 at most");
    }

    @Test
    void aCodeThatIsTakenIsRefused() {
        job.addCase(details("C-01"), null);
        assertThatThrownBy(() -> job.addCase(details("c-01"), null))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("there is a case c-01 already");
        assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all())).hasSize(1);
    }

    @Test
    void descriptorsAndProceduresThatAreNotKnownAreRefused() {
        refused(() -> add("phaco", Map.of("colour", "blue")), "unknown descriptor \"colour\"", "nuclear_grade");
        refused(() -> add("phaco", Map.of("eye", "both")), "\"both\" is no value of eye", "allowed are: right, left");
        refused(() -> add("trabeculectomy", Map.of()), "no procedure \"trabeculectomy\"", "known are: phaco");
        // free text where the procedure file lists no values
        add("phaco", Map.of("other_risks", "one eye only"));
    }

    private void add(String procedure, Map<String, String> descriptors) {
        job.addCase(new NewCase("C-01", "T03", LocalDate.of(2026, 3, 9), procedure, descriptors), null);
    }

    private void refused(org.assertj.core.api.ThrowableAssert.ThrowingCallable work, String what, String remedy) {
        assertThatThrownBy(work)
                .isInstanceOf(InputException.class)
                .hasMessageContaining(what)
                .hasMessageContaining(remedy);
        assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all())).isEmpty();
    }

    @Test
    void aTextUnderTheNameOfARecordingIsRefused() throws IOException {
        Path text = Files.writeString(temp.resolve("text.mp4"), "Minutes of the meeting.\n".repeat(500));
        refusedFile(text, Reason.NO_VIDEO, "choose the recording itself");
    }

    @Test
    void anEmptyFileIsRefused() throws IOException {
        refusedFile(Files.createFile(temp.resolve("empty.mp4")), Reason.EMPTY, "copy it again from the recorder");
    }

    @Test
    void aFileThatIsNotThereIsRefused() {
        refusedFile(temp.resolve("gone.mp4"), Reason.NOT_FOUND, "connect the drive it is on");
    }

    @Test
    void aFileThatTheRecorderNeverClosedIsRefusedBesideAGoodOne() throws IOException {
        Path unfinished = Files.write(temp.resolve("unfinished.mp4"), withoutBox("moov", Files.readAllBytes(WHOLE)));
        refusedFile(unfinished, Reason.UNFINISHED, "moov");
    }

    private void refusedFile(Path file, Reason reason, String remedy) {
        assertThatThrownBy(() -> job.addCase(details("C-01"), job.preview(List.of(PART9, file), Progress.NONE)))
                .isInstanceOfSatisfying(
                        MediaException.class, e -> assertThat(e.reason()).isEqualTo(reason))
                .hasMessageContaining(file.toString())
                .hasMessageContaining(remedy);
        assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all())).isEmpty();
    }

    @Test
    void aCopyThatWasCutShortIsTakenOnlyWhenThatIsAccepted() throws IOException {
        Path cut = Files.write(temp.resolve("cut.mp4"), firstPart(WHOLE));
        RecordingPreview preview = job.preview(List.of(cut), Progress.NONE);
        assertThatThrownBy(() -> job.addCase(details("C-01"), preview))
                .isInstanceOfSatisfying(
                        MediaException.class, e -> assertThat(e.reason()).isEqualTo(Reason.CUT_SHORT))
                .hasMessageContaining(cut.toString())
                // 2195 frames of 1/25 s
                .hasMessageContaining("promises 1:27.800")
                .hasMessageContaining("--accept-cut-short");
        assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all())).isEmpty();

        job.addCase(details("C-01"), preview, true);
        long frames = preview.segments().get(0).frames();
        assertThat(frames).isBetween(1000L, 1700L);
        // what is there lasts as long as its frames; of the pictures between the last two references (x264 puts three
        // there by default) some may be missing
        assertThat(preview.segments().get(0).durationUs()).isBetween(frames * 40_000, (frames + 3) * 40_000);
        assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all())).hasSize(1);
    }

    /** The first 60 %; the demo files have their table of contents in front. */
    private static byte[] firstPart(Path file) throws IOException {
        byte[] all = Files.readAllBytes(file);
        return Arrays.copyOf(all, all.length * 6 / 10);
    }

    /** An MP4 file without one of its top-level boxes (ISO/IEC 14496-12: 32-bit size, four letters, content). */
    private static byte[] withoutBox(String name, byte[] file) {
        ByteArrayOutputStream rest = new ByteArrayOutputStream();
        boolean found = false;
        for (int at = 0; at < file.length; ) {
            int size = ByteBuffer.wrap(file, at, 4).getInt();
            assertThat(size).isGreaterThanOrEqualTo(8);
            if (new String(file, at + 4, 4, StandardCharsets.US_ASCII).equals(name)) {
                found = true;
            } else {
                rest.write(file, at, size);
            }
            at += size;
        }
        assertThat(found).isTrue();
        return rest.toByteArray();
    }
}
