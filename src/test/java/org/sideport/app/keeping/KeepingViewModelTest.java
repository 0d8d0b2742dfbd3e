package org.sideport.app.keeping;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.model.Consent;
import org.sideport.model.ConsentState;
import org.sideport.model.Deletion;
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
        Set<String> first = log();
        assertThat(first).hasSize(1);
        assertThat(bench.notice()).isNotEqualTo(clean(first));

        model.plan("C-2", model::delete);
        assertThat(model.leftToDo()).hasSize(2);
        Set<String> second = log();
        assertThat(second).hasSize(2).containsAll(first);
        second.removeAll(first);
        assertThat(bench.notice()).isEqualTo(clean(second));
    }

    /** Numbers of the log's lines; of one day in no order. */
    private Set<String> log() {
        return new CaseKeeping(bench.workspace)
                .overview(LocalDate.of(2026, 5, 4)).log().stream()
                        .map(Deletion::id)
                        .collect(Collectors.toSet());
    }

    /** What is said of a deletion if it left nothing. */
    private String clean(Set<String> deletion) {
        return bench.texts.get("keeping.deleted", deletion.iterator().next());
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
