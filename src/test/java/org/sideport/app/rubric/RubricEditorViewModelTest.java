package org.sideport.app.rubric;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Objects;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.model.Rubric;
import org.sideport.rubric.Finding;
import org.sideport.rubric.RubricDraft;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.RubricWorkshop;
import org.sideport.workflow.RubricWorkshop.Shelf;
import org.sideport.workflow.Vocabularies;

class RubricEditorViewModelTest {

    @TempDir
    Path folder;

    private Bench bench;
    private RubricEditorViewModel model;

    @BeforeEach
    void open() {
        bench = new Bench(folder);
        model = new RubricEditorViewModel(new RubricWorkshop(bench.workspace), bench.work, bench.notices, bench.texts);
        model.refresh();
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private Shelf shelf(String id) {
        return model.shelves().stream()
                .filter(s -> s.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private RubricDraft draft() {
        return Objects.requireNonNull(model.draftProperty().get());
    }

    @Test
    void aFormIsWrittenFieldByFieldUntilNoFaultIsLeftAndThenMarkingOffersIt() {
        model.fresh(ShippedRubrics.phacoProcedure());
        assertThat(model.whyNoSavingProperty().get()).isNotEmpty();
        while (!model.findingsProperty().get().isEmpty()) {
            int before = model.findingsProperty().get().size();
            Finding fault = model.findingsProperty().get().get(0);
            model.type(fault.path(), "text for " + fault.path());
            assertThat(model.findingsProperty().get()).hasSizeLessThan(before);
        }
        assertThat(model.whyNoSavingProperty().get()).isEmpty();
        model.save();

        assertThat(model.whyNoSavingProperty().get()).isEqualTo("Nothing has changed");
        assertThat(model.isChanged()).isFalse();
        assertThat(new Vocabularies(bench.workspace).rubrics("phaco"))
                .extracting(Rubric::title)
                .contains("text for /title");
        // and it can be gone on with
        model.type("/title", "Better");
        model.save();
        assertThat(new Vocabularies(bench.workspace).rubric("own-form").rubric().title())
                .isEqualTo("Better");
    }

    @Test
    void whatIsTypedInOneFieldIsOneStepBack() {
        model.copy(shelf("phaco-global"));
        String title = draft().text("/title");
        model.type("/title", "A");
        model.type("/title", "AB");
        model.type("/source", "S");
        model.addItem();

        model.undo();
        model.undo();
        assertThat(draft().text("/title")).isEqualTo("AB");
        model.undo();
        assertThat(draft().text("/title")).isEqualTo(title);
        assertThat(model.canUndoProperty().get()).isFalse();
        model.redo();
        assertThat(draft().text("/title")).isEqualTo("AB");
        model.type("/title", "C");
        assertThat(model.canRedoProperty().get()).isFalse();
    }

    @Test
    void aFormInUseOpensAsItsNextVersionAndAsksAfterItems() {
        Bench.addCase(bench.workspace, "C-1");
        Rubric global = new Vocabularies(bench.workspace).rubric("phaco-global").rubric();
        new MarkCase(bench.workspace)
                .open("C-1", "A1", false, global)
                .mark(global.items().get(0).id(), 3);
        model.refresh();
        model.change(shelf("phaco-global"));

        assertThat(model.versionNote()).contains("1.0.0").contains("1 rating was");
        assertThat(Part.all(draft())).contains(Part.EARLIER);
        model.removeItem(0);
        assertThat(model.findingsProperty().get())
                .singleElement()
                .satisfies(f -> assertThat(Part.of(f.path(), draft())).isEqualTo(Part.EARLIER));
        model.save();
        assertThat(model.shelves()).noneMatch(s -> s.file() != null);
        model.edit(d -> d.withFate(global.items().get(0).id(), null));
        model.save();
        model.close();
        assertThat(shelf("phaco-global").version()).isEqualTo("1.1.0");
    }

    @Test
    void everyFaultBelongsToAPartOfTheForm() {
        model.copy(shelf("phaco-competency"));
        model.type("/items/3/weight", "x");
        model.type("/levels/1/points", "9");
        model.type("/translations/fr/items/nobody/title", "x");
        model.type("/pass_standard/share", "7");

        assertThat(model.findingsProperty().get())
                .extracting(f -> Part.of(f.path(), draft()))
                .contains(Part.item(3), Part.LEVELS, Part.FORM, Part.STANDARD)
                .allMatch(part -> Part.all(draft()).contains(part));
    }

    @Test
    void thePartsAreWalkedInTheOrderOfTheDomains() {
        model.copy(shelf("phaco-global"));
        for (int i = 0; i < Part.all(draft()).size(); i++) {
            model.step(1);
        }
        assertThat(model.partProperty().get()).isEqualTo(Part.FORM);
        model.step(-1);
        assertThat(model.partProperty().get()).isEqualTo(Part.STANDARD);
    }
}
