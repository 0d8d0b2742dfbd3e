package org.sideport.app.progress;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Set;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.model.Caller;
import org.sideport.model.Role;
import org.sideport.store.Workspace;
import org.sideport.workflow.FollowProgress;
import org.sideport.workflow.exchange.ExportOwnData;
import org.sideport.workflow.handout.WritePortfolio;

/** A person's right to what is held about him or her (GDPR, Article 15 (3)), on the screen too. */
class ProgressViewModelTest {

    @TempDir
    Path temp;

    private Bench bench;

    @BeforeEach
    void aCaseOfT02() {
        bench = new Bench(temp.resolve("unit"));
        Bench.addCase(bench.workspace, "C-1");
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private ProgressViewModel as(String code, Role role) {
        Workspace own = bench.workspace.as(new Caller.Person(code, Set.of(role)));
        ProgressViewModel model = new ProgressViewModel(
                new FollowProgress(own),
                new WritePortfolio(own),
                new ExportOwnData(own),
                bench.current,
                code,
                bench.work,
                bench.notices,
                bench.texts,
                bench.settings);
        model.load();
        return model;
    }

    @Test
    void aTraineeTakesHomeAllThatIsKept() throws Exception {
        ProgressViewModel model = as("T02", Role.TRAINEE);
        assertThat(model.whyNoDataProperty().get()).isEmpty();
        Path out = temp.resolve("own.zip");
        model.exportData(out);
        assertThat(bench.notice()).isEqualTo("All that is kept about T02 is written: one case");
        try (ZipFile zip = new ZipFile(out.toFile())) {
            assertThat(new String(zip.getInputStream(zip.getEntry("cases.csv")).readAllBytes()))
                    .contains("C-1");
        }
    }

    @Test
    void whoHasNoCaseYetAsksForTheOwnDataAndNotForOthers() {
        ProgressViewModel model = as("T05", Role.TRAINEE);
        assertThat(model.whoseData()).isEqualTo("T05");
        assertThat(model.whyNoDataProperty().get()).isEmpty();
        model.exportData(temp.resolve("none.zip"));
        assertThat(bench.notice()).contains("there is nothing about T05");
    }

    @Test
    void thoseOfATraineeAreNotForAnAssessor() {
        ProgressViewModel model = as("A1", Role.ASSESSOR);
        model.subjectProperty().set(new FollowProgress.Subject("T02", "phaco", 1));
        assertThat(model.whyNoDataProperty().get()).isEqualTo("These are for that trainee and for directors");
        model.exportData(temp.resolve("none.zip"));
        assertThat(temp.resolve("none.zip")).doesNotExist();
    }
}
