package org.sideport.app.upkeep;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.AuditTrail;
import org.sideport.workflow.upkeep.CheckWorkspace;
import org.sideport.workflow.upkeep.KeepBackups;

class StoreViewModelTest {

    @TempDir
    Path temp;

    private Bench bench;
    private StoreViewModel model;

    @BeforeEach
    void aUnit() {
        bench = new Bench(temp.resolve("unit"));
        Bench.addCase(bench.workspace, "C-1");
        model = new StoreViewModel(
                new CheckWorkspace(bench.workspace),
                new KeepBackups(bench.workspace, Clock.systemUTC()),
                new AuditTrail(bench.workspace),
                bench.work,
                bench.notices,
                bench.texts,
                ZoneOffset.UTC);
    }

    @AfterEach
    void close() {
        bench.close();
    }

    @Test
    void aCopyIsBroughtBackBesideWhatIsOpen() {
        Path file = temp.resolve("copy.zip");
        model.backUpTo(file);
        Bench.addCase(bench.workspace, "C-2");
        List<Path> whole = new ArrayList<>();
        model.restore(file, temp.resolve("back"), whole::add);
        assertThat(whole).containsExactly(temp.resolve("back"));
        assertThat(model.findings()).isEmpty();
        assertThat(model.resultProperty().get())
                .contains(": one case.")
                .endsWith("all signed marks are as they were written.");
        try (Workspace back = Workspace.open(temp.resolve("back"))) {
            assertThat(back.<Boolean>read(s -> s.cases().find("C-1").isPresent()))
                    .isTrue();
            assertThat(back.<Boolean>read(s -> s.cases().find("C-2").isPresent()))
                    .isFalse();
        }
        assertThat(bench.workspace.<Boolean>read(s -> s.cases().find("C-2").isPresent()))
                .isTrue();
    }

    @Test
    void aFolderInUseAndAFileThatIsNoCopyAreRefused() {
        Path file = temp.resolve("copy.zip");
        model.backUpTo(file);
        List<Path> whole = new ArrayList<>();
        model.restore(file, temp.resolve("unit"), whole::add);
        assertThat(bench.notice()).isNotEmpty();
        assertThat(model.busyProperty().get()).isFalse();
        model.restore(temp.resolve("unit/sideport.log"), temp.resolve("back"), whole::add);
        assertThat(whole).isEmpty();
        assertThat(temp.resolve("back")).doesNotExist();
    }

    @Test
    void aDeedIsToldInWordsAndFoundByThemAndByItsId() {
        model.refresh();
        for (String words : List.of("case added", "case.add")) {
            model.searchProperty().set(words);
            assertThat(model.lines()).extracting(model::deed).containsExactly("Case added");
        }
    }
}
