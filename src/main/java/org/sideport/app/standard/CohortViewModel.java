package org.sideport.app.standard;

import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.model.Rubric;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.Vocabularies;

/** A cohort by one rubric at a time. */
public final class CohortViewModel {

    private final FollowCohort cohort;
    private final Vocabularies vocabularies;
    private final Background work;
    private final Notices notices;
    private final ObservableList<Rubric> rubrics = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable Rubric> rubric = new SimpleObjectProperty<>(null);
    private final IntegerProperty last = new SimpleIntegerProperty(FollowCohort.USUAL_LAST);
    private final ReadOnlyObjectWrapper<@Nullable CohortView> view = new ReadOnlyObjectWrapper<>(null);
    private int turn;

    public CohortViewModel(FollowCohort cohort, Vocabularies vocabularies, Background work, Notices notices) {
        this.cohort = cohort;
        this.vocabularies = vocabularies;
        this.work = work;
        this.notices = notices;
        rubric.addListener((property, old, now) -> read());
        last.addListener((property, old, now) -> read());
    }

    public ObservableList<Rubric> rubrics() {
        return rubrics;
    }

    public ObjectProperty<@Nullable Rubric> rubricProperty() {
        return rubric;
    }

    /** How many of the latest marked cases the means are over. */
    public IntegerProperty lastProperty() {
        return last;
    }

    public ReadOnlyObjectProperty<@Nullable CohortView> viewProperty() {
        return view.getReadOnlyProperty();
    }

    /** Reads what there is now. */
    public void load() {
        work.run(
                progress -> vocabularies.rubricTexts().stream()
                        .map(Vocabularies.RubricText::rubric)
                        .toList(),
                found -> {
                    // a list set anew would take the choice off the screen
                    if (!rubrics.equals(found)) {
                        rubrics.setAll(found);
                    }
                    Rubric before = rubric.get();
                    Rubric same = found.stream()
                            .filter(r -> before != null && r.id().equals(before.id()))
                            .findFirst()
                            .orElse(found.isEmpty() ? null : found.get(0));
                    if (same != null && !same.equals(before)) {
                        rubric.set(same);
                    } else {
                        read();
                    }
                },
                notices::failed);
    }

    private void read() {
        int mine = ++turn;
        Rubric of = rubric.get();
        if (of == null) {
            view.set(null);
            return;
        }
        int cases = last.get();
        work.run(
                progress -> cohort.show(new FollowCohort.Question(
                        of.id(), null, cases, CohortView.By.DOMAIN, Decisions.USUAL_WISH, Decisions.USUAL_MINUTES)),
                now -> {
                    if (turn == mine) {
                        view.set(now);
                    }
                },
                notices::failed);
    }
}
