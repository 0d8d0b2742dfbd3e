package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.sideport.workflow.Unit.DATA;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

class OpenRecordingTest {

    @TempDir
    Path temp;

    private Workspace workspace;
    private Path first;
    private Path second;
    private SurgicalCase stored;

    @BeforeEach
    void aCaseOfTwoFiles() throws IOException {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Path drive = Files.createDirectories(temp.resolve("drive"));
        first = Files.copy(DATA.resolve("D-001_part9.mp4"), drive.resolve("a.mp4"));
        second = Files.copy(DATA.resolve("D-001_part10.mp4"), drive.resolve("b.mp4"));
        ImportRecording job = new ImportRecording(workspace);
        stored = job.addCase(
                new NewCase("D-001", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of()),
                job.preview(List.of(first, second), Progress.NONE));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private List<Path> locate(Path... alsoIn) {
        Recording found = new OpenRecording(workspace).locate(stored, List.of(alsoIn), Progress.NONE);
        return found.segments().stream().map(Segment::file).toList();
    }

    private List<Path> remembered() {
        Recording recording =
                workspace.<SurgicalCase>read(s -> s.cases().get("D-001")).recording();
        return recording == null
                ? List.of()
                : recording.segments().stream().map(Segment::file).toList();
    }

    @Test
    void filesWhereTheyWereAreTaken() {
        assertThat(locate()).containsExactly(first, second);
    }

    @Test
    void aFileMovedAndRenamedWithinTheWorkspaceIsFoundAndRemembered() throws IOException {
        Path place =
                Files.createDirectories(workspace.dir().resolve("2026/march")).resolve("second half.mp4");
        Files.move(second, place);
        assertThat(locate()).containsExactly(first, place);
        assertThat(remembered()).containsExactly(first, place);
    }

    @Test
    void aFileRenamedInItsFolderIsFound() throws IOException {
        Path place = Files.move(first, first.resolveSibling("c.mp4"));
        assertThat(locate()).containsExactly(place, second);
    }

    @Test
    void bothFilesAreFoundInAFolderThatTheUserNames() throws IOException {
        Path other = temp.resolve("other drive");
        Files.move(first.getParent(), other);
        assertThatThrownBy(this::locate)
                .isInstanceOf(InputException.class)
                .hasMessageContaining("a file of case D-001 is not where it was")
                .hasMessageContaining(first.toString())
                .hasMessageContaining("move it into the workspace folder " + workspace.dir());
        assertThat(remembered()).containsExactly(first, second);
        assertThat(locate(other)).containsExactly(other.resolve("a.mp4"), other.resolve("b.mp4"));
    }

    @Test
    void aFileOfTheSameSizeAndOtherContentIsNotTaken() throws IOException {
        byte[] content = Files.readAllBytes(second);
        Files.delete(second);
        content[content.length / 2] ^= 1;
        Files.write(workspace.dir().resolve("b.mp4"), content);
        assertThatThrownBy(this::locate).isInstanceOf(InputException.class).hasMessageContaining("b.mp4");
        content[content.length / 2] ^= 1;
        Path real = Files.write(workspace.dir().resolve("z.mp4"), content);
        assertThat(locate()).containsExactly(first, real);
    }

    @Test
    void aFolderLinkThatLeadsBackIntoItselfDoesNotHideTheFile() throws IOException {
        Path place = Files.createDirectories(workspace.dir().resolve("zz")).resolve("b.mp4");
        Files.move(second, place);
        Files.createSymbolicLink(workspace.dir().resolve("again"), workspace.dir());
        assertThat(locate()).containsExactly(first, place);
    }

    @Test
    void aCaseWithoutARecordingSaysSo() {
        SurgicalCase bare = Unit.addCase(workspace, "C-02");
        assertThatThrownBy(() -> new OpenRecording(workspace).locate(bare))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("case C-02 has no recording");
    }

    @Test
    void theSearchCanBeCancelled() throws IOException {
        Files.delete(second);
        Progress cancelled = new Progress() {
            @Override
            public void report(double share, String what) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThatThrownBy(() -> new OpenRecording(workspace).locate(stored, List.of(), cancelled))
                .isInstanceOf(CancellationException.class);
    }
}
