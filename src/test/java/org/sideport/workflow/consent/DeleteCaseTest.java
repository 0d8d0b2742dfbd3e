package org.sideport.workflow.consent;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.FileDigest;
import org.sideport.model.AuditEvent;
import org.sideport.model.Comment;
import org.sideport.model.CommentTone;
import org.sideport.model.Consent;
import org.sideport.model.ConsentState;
import org.sideport.model.Deletion;
import org.sideport.model.DeletionKind;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Voice;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseEdit;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.EditCase;

/** Real files: those in the workspace go, others are named, and nothing is left without a word. */
class DeleteCaseTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 5, 4);
    private static final Instant NOW = Instant.parse("2026-05-04T09:00:00Z");

    @TempDir
    Path temp;

    private Workspace workspace;
    private Path outside;

    @BeforeEach
    void open() throws IOException {
        workspace = FreshWorkspace.in(temp.resolve("unit"));
        outside = Files.createDirectories(temp.resolve("shelf"));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static Path file(Path path, String content) throws IOException {
        Files.createDirectories(path.getParent());
        return Files.writeString(path, content);
    }

    private void add(String code, Path... files) {
        List<Segment> segments =
                Arrays.stream(files).map(DeleteCaseTest::segment).toList();
        workspace.change(s -> s.cases()
                .add(new SurgicalCase(
                        code, "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), new Recording(segments))));
    }

    private static Segment segment(Path file) {
        try {
            return new Segment(
                    file,
                    FileDigest.sha256(file, Progress.NONE),
                    Files.size(file),
                    40_000_000,
                    1000,
                    0,
                    25,
                    1,
                    false,
                    "h264",
                    640,
                    480,
                    "1:1",
                    0,
                    false,
                    false,
                    List.of());
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private void withdraw(String code) {
        Consent withdrawn = new Consent(ConsentState.WITHDRAWN, Set.of(), "A9", TODAY);
        new EditCase(workspace).edit(code, new CaseEdit("A9", null, null, Map.of(), withdrawn, null, false), NOW);
    }

    @Test
    void filesInTheWorkspaceGoAndEveryOtherOneIsNamed() throws IOException {
        Path own = file(workspace.dir().resolve("recordings/C-1/1.mp4"), "own");
        Path far = file(outside.resolve("2.mp4"), "far");
        Path changed = file(workspace.dir().resolve("3.mp4"), "as it was");
        Path gone = file(outside.resolve("4.mp4"), "gone");
        Path both = file(workspace.dir().resolve("5.mp4"), "in two cases");
        Path linked = workspace.dir().resolve("6.mp4");
        Files.createSymbolicLink(linked, file(outside.resolve("6.mp4"), "behind a link"));
        add("C-1", own, far, changed, gone, both, linked);
        add("C-2", both);
        Files.writeString(changed, "another file under the old name");
        Files.delete(gone);
        withdraw("C-1");

        DeleteCase job = new DeleteCase(workspace);
        DeletionPlan plan = job.plan("C-1", TODAY);
        assertThat(plan.kind()).isEqualTo(DeletionKind.WITHDRAWN);
        assertThat(plan.files()).containsExactly(own);
        assertThat(plan.elsewhere()).containsExactly(far, changed, linked);
        assertThat(plan.missing()).containsExactly(gone);
        assertThat(plan.shared()).containsExactly(both);
        assertThat(own).exists();

        DeleteCase.Done done = job.delete(plan, "D1", TODAY);
        assertThat(own).doesNotExist();
        assertThat(own.getParent()).doesNotExist();
        assertThat(List.of(far, changed, both, linked))
                .allSatisfy(left -> assertThat(left).exists());
        assertThat(done.plan().leavesWork()).isTrue();
        assertThat(new CaseList(workspace).newest(-1)).extracting("code").containsExactly("C-2");
        assertThat(new CaseKeeping(workspace).overview(TODAY).withdrawn()).isEmpty();
    }

    @Test
    void theLogAndTheAuditTrailNameNoCaseAndNoTrainee() throws IOException {
        add("C-1", file(outside.resolve("a.mp4"), "x"));
        withdraw("C-1");
        DeleteCase job = new DeleteCase(workspace);
        Deletion made = job.delete(job.plan("C-1", TODAY), "D1", TODAY).deletion();

        assertThat(new CaseKeeping(workspace).overview(TODAY).log()).containsExactly(made);
        assertThat(made.toString()).doesNotContain("C-1").doesNotContain("T03").contains("D1", "2026-05-04");
        List<AuditEvent> trail = workspace.read(s -> s.audit().all());
        AuditEvent last = trail.get(trail.size() - 1);
        assertThat(last.deed()).isEqualTo("case.delete");
        assertThat(last.subject()).isEqualTo(made.id());
        assertThat(last.after()).isEqualTo("withdrawn");
        assertThat(trail).extracting(AuditEvent::deed).contains("case.consent");
    }

    @Test
    void aVoiceGoesWithItsCaseUnlessAnotherCaseHasItToo() throws IOException {
        add("C-1", file(outside.resolve("a.mp4"), "x"));
        add("C-2", file(outside.resolve("b.mp4"), "y"));
        String only = "a".repeat(64);
        String shared = "b".repeat(64);
        for (String voice : List.of(only, shared)) {
            file(workspace.voices().file(voice), voice);
            say("C-1", voice);
        }
        say("C-2", shared);
        withdraw("C-1");
        DeleteCase job = new DeleteCase(workspace);
        job.delete(job.plan("C-1", TODAY), "D1", TODAY);
        assertThat(workspace.voices().file(only)).doesNotExist();
        assertThat(workspace.voices().file(shared)).exists();
    }

    private void say(String code, String voice) {
        SeenTrack seen = new SeenTrack(List.of(new SeenEvent.Stand(0, MediaTime.ofMicros(0))));
        workspace.change(s -> s.comments()
                .save(
                        code,
                        new Comment(
                                code + voice.charAt(0),
                                "A1",
                                CommentTone.PRAISE,
                                "",
                                null,
                                MediaTime.ofMicros(0),
                                null,
                                List.of(),
                                new Voice(voice, 1_000_000, seen, List.of()))));
    }

    @Test
    void withoutAReasonNothingCanBePlannedAndADayThatHasComeIsOne() throws IOException {
        add("C-1", file(outside.resolve("a.mp4"), "x"));
        DeleteCase job = new DeleteCase(workspace);
        assertThatThrownBy(() -> job.plan("C-1", TODAY)).hasMessageContaining("neither refused nor withdrawn");
        CaseEdit day = new CaseEdit("A9", null, null, Map.of(), null, TODAY, false);
        new EditCase(workspace).edit("C-1", day, NOW);
        CaseKeeping keeping = new CaseKeeping(workspace);
        assertThat(keeping.overview(TODAY).due()).extracting(SurgicalCase::code).containsExactly("C-1");
        assertThat(keeping.overview(TODAY.minusDays(1)).due()).isEmpty();
        assertThat(job.plan("C-1", TODAY).kind()).isEqualTo(DeletionKind.RETENTION);

        keeping.extend("C-1", TODAY.plusYears(1), "D1", NOW, TODAY);
        assertThatThrownBy(() -> job.plan("C-1", TODAY)).hasMessageContaining("before 2027-05-04");
        assertThatThrownBy(() -> keeping.extend("C-1", TODAY, "D1", NOW, TODAY))
                .hasMessageContaining("not in the future");
        keeping.done("C-1", "D1", NOW);
        assertThat(keeping.overview(TODAY.plusYears(9)).due()).isEmpty();
        assertThat(new EditCase(workspace).open("C-1").changes())
                .extracting("field", "before", "after")
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("review_by", "", "2026-05-04"),
                        org.assertj.core.groups.Tuple.tuple("review_by", "2026-05-04", "2027-05-04"),
                        org.assertj.core.groups.Tuple.tuple("review_by", "2027-05-04", ""));
    }

    @Test
    void aWithdrawalRecordedByMistakeCanBeTakenBack() throws IOException {
        add("C-1", file(outside.resolve("a.mp4"), "x"));
        withdraw("C-1");
        CaseKeeping keeping = new CaseKeeping(workspace);
        keeping.takeBack("C-1", "D1", NOW);
        assertThat(new CaseList(workspace).one("C-1").surgicalCase().consent()).isEqualTo(Consent.UNKNOWN);
        assertThatThrownBy(() -> keeping.takeBack("C-1", "D1", NOW)).hasMessageContaining("was not withdrawn");
    }

    @Test
    void aFileThatWentSinceThePlanIsNamedAsMissing() throws IOException {
        Path own = file(workspace.dir().resolve("recordings/C-1/1.mp4"), "own");
        add("C-1", own);
        withdraw("C-1");
        DeleteCase job = new DeleteCase(workspace);
        DeletionPlan plan = job.plan("C-1", TODAY);
        Files.delete(own);
        assertThat(job.delete(plan, "D1", TODAY).plan().missing()).containsExactly(own);
    }
}
