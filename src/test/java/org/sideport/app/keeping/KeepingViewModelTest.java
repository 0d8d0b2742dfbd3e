package org.sideport.app.keeping;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.model.Consent;
import org.sideport.model.ConsentState;
import org.sideport.player.DemoRecordings;
import org.sideport.workflow.CaseEdit;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.consent.CaseKeeping;
import org.sideport.workflow.consent.DeleteCase;

class KeepingViewModelTest {

    private static final Instant NOW = Instant.parse("2026-05-04T09:00:00Z");

    @TempDir
    Path temp;

    private Bench bench;

    @BeforeEach
    void twoCasesWithoutConsent() {
        bench = new Bench(temp);
        // two files that lie outside the workspace: a deletion leaves them to a person
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        Bench.addCase(bench.workspace, "C-2");
        for (String code : new String[] {"C-1", "C-2"}) {
            Consent withdrawn = new Consent(ConsentState.WITHDRAWN, Set.of(), "A9", LocalDate.of(2026, 5, 4));
            new EditCase(bench.workspace)
                    .edit(code, new CaseEdit("A9", null, null, Map.of(), withdrawn, null, false), NOW);
        }
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private KeepingViewModel model() {
        return new KeepingViewModel(
                new CaseKeeping(bench.workspace),
                new DeleteCase(bench.workspace),
                bench.work,
                bench.notices,
                bench.texts,
                bench.settings,
                Clock.fixed(NOW, ZoneOffset.UTC));
    }

    @Test
    void eachDeletionSaysWhetherItLeftFilesOfItsOwn() {
        KeepingViewModel model = model();
        model.byProperty().set("A9");
        model.plan("C-1", model::delete);
        assertThat(model.leftToDo()).hasSize(2);
        assertThat(bench.notice()).isNotEqualTo(clean());

        model.plan("C-2", model::delete);
        assertThat(model.leftToDo()).hasSize(2);
        assertThat(bench.notice()).isEqualTo(clean());
    }

    /** What is said of the newest deletion if it left nothing. */
    private String clean() {
        return bench.texts.get(
                "keeping.deleted",
                new CaseKeeping(bench.workspace)
                        .overview(LocalDate.of(2026, 5, 4))
                        .log()
                        .get(0)
                        .id());
    }

    @Test
    void whoSignedInDecidesUnderTheOwnCode() {
        bench.settings.put("keeping.person", "A7");
        assertThat(model().byProperty().get()).isEqualTo("A7");
        assertThat(model().isByFixed()).isFalse();
        bench.settings.fix("annotator", "D1");
        assertThat(model().byProperty().get()).isEqualTo("D1");
        assertThat(model().isByFixed()).isTrue();
    }
}
