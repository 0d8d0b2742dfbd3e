package org.sideport.app.standard;

import java.util.List;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.model.Rubric;
import org.sideport.workflow.Vocabularies;

/** The rubrics that a screen can be about, and the one that it is about; the choice outlives a new reading. */
public final class RubricChoice {

    private final Vocabularies vocabularies;
    private final Background work;
    private final Notices notices;
    private final ObservableList<Rubric> offered = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable Rubric> chosen = new SimpleObjectProperty<>(null);

    public RubricChoice(Vocabularies vocabularies, Background work, Notices notices) {
        this.vocabularies = vocabularies;
        this.work = work;
        this.notices = notices;
    }

    public ObservableList<Rubric> offered() {
        return offered;
    }

    /** {@code null} until the rubrics are read, or where there is none. */
    public ObjectProperty<@Nullable Rubric> chosenProperty() {
        return chosen;
    }

    public @Nullable Rubric chosen() {
        return chosen.get();
    }

    /**
     * Reads the rubrics again; where the chosen one has changed or is gone, the choice changes.
     *
     * @param unchanged run where the choice is what it was
     */
    public void load(Runnable unchanged) {
        work.run(
                progress -> vocabularies.rubricTexts().stream()
                        .map(Vocabularies.RubricText::rubric)
                        .toList(),
                found -> take(found, unchanged),
                notices::failed);
    }

    private void take(List<Rubric> found, Runnable unchanged) {
        Rubric before = chosen.get();
        // a list set anew would take the choice off the screen
        if (!offered.equals(found)) {
            offered.setAll(found);
        }
        Rubric same = found.stream()
                .filter(r -> before != null && r.id().equals(before.id()))
                .findFirst()
                .orElse(found.isEmpty() ? null : found.get(0));
        if (same != null && same.equals(before)) {
            unchanged.run();
        } else {
            chosen.set(same);
        }
    }
}
