package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.slf4j.LoggerFactory;

class WorkspaceTest {

    @TempDir
    Path temp;

    @Test
    void aNewWorkspaceIsEmptyAndWhatIsStoredIsThereWhenItIsOpenedAgain() {
        Path dir = temp.resolve("a folder/with blanks & 100 % #1; [x]=y");
        try (Workspace made = Workspace.create(dir)) {
            assertThat(made.<List<SurgicalCase>>read(s -> s.cases().all())).isEmpty();
            made.change(s -> s.cases().add(Samples.surgicalCase("C-01")));
        }
        assertThat(Workspace.isWorkspace(dir)).isTrue();
        try (Workspace opened = Workspace.open(dir)) {
            assertThat(opened.<List<SurgicalCase>>read(s -> s.cases().all()))
                    .containsExactly(Samples.surgicalCase("C-01"));
        }
    }

    @Test
    @DisabledOnOs(OS.WINDOWS) // where no name has a question mark
    void aQuestionMarkInTheFoldersNameIsNoTrouble() {
        Path dir = temp.resolve("which one?cache=shared&x");
        Workspace.create(dir).close();
        assertThat(dir.resolve(Workspace.STORE_FILE)).isNotEmptyFile();
        try (var opened = Workspace.open(dir)) {
            opened.change(s -> s.cases().add(Samples.surgicalCase("C-01")));
        }
        try (var opened = Workspace.open(dir)) {
            assertThat(opened.<List<SurgicalCase>>read(s -> s.cases().all())).hasSize(1);
        }
    }

    @Test
    void aFolderWithoutAStoreIsRefusedWithTheCommandThatMakesOneAndStaysUntouched() throws IOException {
        assertThatThrownBy(() -> Workspace.open(temp))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no Sideport workspace")
                .hasMessageContaining("sideport workspace init \"" + temp + "\"");
        try (var entries = Files.list(temp)) {
            assertThat(entries).isEmpty();
        }
    }

    @Test
    void aWorkspaceIsNotMadeOverAnother() {
        Workspace.create(temp).close();
        assertThatThrownBy(() -> Workspace.create(temp))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("there is a workspace here already");
    }

    @Test
    void aWorkspaceIsNotMadeWhereAFileIsInTheWay() throws IOException {
        Path file = Files.writeString(temp.resolve("notes.txt"), "not a folder");
        assertThatThrownBy(() -> Workspace.create(file))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("a file is in the way");
        assertThatThrownBy(() -> Workspace.create(file.resolve("below")))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("notes.txt");
        assertThat(file).hasContent("not a folder");
    }

    @Test
    void aFolderThatMayNotBeWrittenIsRefusedWithARemedy() throws IOException {
        Path dir = Files.createDirectory(
                temp.resolve("locked"),
                PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("r-xr-xr-x")));
        assumeFalse(Files.isWritable(dir), "the superuser may write everywhere");
        assertThatThrownBy(() -> Workspace.create(dir))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(dir.toString())
                .hasMessageContaining("check that the folder may be written to");
    }

    @Test
    void aChangeThatFailsHalfwayLeavesNothingBehind() {
        try (Workspace workspace = Workspace.create(temp)) {
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-01")));
            assertThatThrownBy(() -> workspace.change(s -> {
                        s.cases().add(Samples.surgicalCase("C-02"));
                        s.taggings().save("C-01", "A1", Tagging.EMPTY);
                        throw new IllegalStateException("pulled the plug");
                    }))
                    .isInstanceOf(IllegalStateException.class)
                    .hasMessage("pulled the plug");
            assertThat(workspace.<Boolean>read(s -> s.cases().exists("C-02"))).isFalse();
            assertThat(workspace.<List<TaggingStore.Key>>read(s -> s.taggings().all()))
                    .isEmpty();
        }
    }

    @Test
    void severalThreadsThatReadThenWriteDoNotGetInEachOthersWay() throws Exception {
        int threads = 4;
        int each = 15;
        try (Workspace workspace = Workspace.create(temp)) {
            ExecutorService pool = Executors.newFixedThreadPool(threads);
            List<Callable<Boolean>> work = new ArrayList<>();
            for (int t = 0; t < threads; t++) {
                int thread = t;
                work.add(() -> {
                    for (int i = 0; i < each; i++) {
                        String code = "C-" + thread + "-" + i;
                        workspace.change(s -> s.cases().add(Samples.surgicalCase(code)));
                    }
                    return true;
                });
            }
            for (Future<Boolean> done : pool.invokeAll(work)) {
                assertThat(done.get()).isTrue();
            }
            pool.shutdown();
            assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all())).hasSize(threads * each);
        }
    }

    @Test
    void theStoreKeepsAWriteAheadLog() throws SQLException {
        try (Workspace workspace = Workspace.create(temp)) {
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-01")));
            assertThat(Samples.rawText(temp, "pragma journal_mode")).isEqualTo("wal");
        }
    }

    @Test
    void eachConnectionOfTheProgramWaitsForTheDiskAndMindsReferences() {
        // https://www.sqlite.org/pragma.html: synchronous FULL is 2, foreign_keys on is 1
        try (Workspace workspace = Workspace.create(temp)) {
            assertThat(workspace.<Integer>read(s -> s.handle
                            .createQuery("pragma synchronous")
                            .mapTo(Integer.class)
                            .one()))
                    .isEqualTo(2);
            assertThat(workspace.<Integer>read(s -> s.handle
                            .createQuery("pragma foreign_keys")
                            .mapTo(Integer.class)
                            .one()))
                    .isEqualTo(1);
        }
    }

    @Test
    void aRatingOfARubricThatIsNotKeptIsRefusedByTheReferenceBetweenTheTables() {
        try (Workspace workspace = Workspace.create(temp)) {
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-01")));
            assertThatThrownBy(() ->
                            workspace.change(s -> s.ratings().addDraft("C-01", Samples.rating("A1", 3), null, null)))
                    .hasStackTraceContaining("FOREIGN KEY constraint failed");
            assertThat(workspace.<List<StoredRating>>read(s -> s.ratings().all()))
                    .isEmpty();
        }
    }

    @Test
    void theLogStandsInTheFolderAndEndsWithTheWorkspace() throws IOException {
        Path log = temp.resolve("sideport.log");
        try (Workspace workspace = Workspace.create(temp)) {
            LoggerFactory.getLogger(WorkspaceTest.class).warn("while {} is open", "it");
            assertThat(workspace.dir()).isEqualTo(temp.toAbsolutePath());
        }
        LoggerFactory.getLogger(WorkspaceTest.class).warn("after it was closed");
        assertThat(Files.readString(log)).contains("WARN", "while it is open").doesNotContain("after it was closed");
    }
}
