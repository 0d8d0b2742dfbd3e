package org.sideport.app.standard;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
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
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.model.Decision;
import org.sideport.model.Rubric;
import org.sideport.workflow.Codes;
import org.sideport.workflow.DecisionFigures;
import org.sideport.workflow.DecisionView;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.Vocabularies;

/** What a panel looks at about one trainee, and what it decided. */
public final class DecisionsViewModel {

    /** What is on the screen. */
    record Shown(DecisionView view, String digest, List<Decision> before) {}

    private record Choices(List<String> trainees, List<Rubric> rubrics) {}

    private final Decisions decisions;
    private final Vocabularies vocabularies;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final Clock clock;
    private final ObservableList<String> trainees = FXCollections.observableArrayList();
    private final ObservableList<Rubric> rubrics = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable String> trainee = new SimpleObjectProperty<>(null);
    private final ObjectProperty<@Nullable Rubric> rubric = new SimpleObjectProperty<>(null);
    private final IntegerProperty last = new SimpleIntegerProperty(0);
    private final ReadOnlyObjectWrapper<@Nullable Shown> shown = new ReadOnlyObjectWrapper<>(null);
    private int turn;

    public DecisionsViewModel(
            Decisions decisions,
            Vocabularies vocabularies,
            Background work,
            Notices notices,
            Texts texts,
            Clock clock) {
        this.decisions = decisions;
        this.vocabularies = vocabularies;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        this.clock = clock;
        trainee.addListener((property, old, now) -> read());
        rubric.addListener((property, old, now) -> read());
        last.addListener((property, old, now) -> read());
    }

    public ObservableList<String> trainees() {
        return trainees;
    }

    public ObservableList<Rubric> rubrics() {
        return rubrics;
    }

    public ObjectProperty<@Nullable String> traineeProperty() {
        return trainee;
    }

    public ObjectProperty<@Nullable Rubric> rubricProperty() {
        return rubric;
    }

    /** How many of the latest cases to look at; 0 for all. */
    public IntegerProperty lastProperty() {
        return last;
    }

    ReadOnlyObjectProperty<@Nullable Shown> shownProperty() {
        return shown.getReadOnlyProperty();
    }

    /** Reads what there is now; a trainee and a rubric stay chosen. */
    public void load() {
        work.run(
                progress -> new Choices(
                        decisions.trainees(),
                        vocabularies.rubricTexts().stream()
                                .map(Vocabularies.RubricText::rubric)
                                .toList()),
                found -> {
                    if (!trainees.equals(found.trainees())) {
                        trainees.setAll(found.trainees());
                    }
                    // a list set anew would take the choice off the screen
                    if (!rubrics.equals(found.rubrics())) {
                        rubrics.setAll(found.rubrics());
                    }
                    Rubric before = rubric.get();
                    Rubric same = found.rubrics().stream()
                            .filter(r -> before != null && r.id().equals(before.id()))
                            .findFirst()
                            .orElse(
                                    found.rubrics().isEmpty()
                                            ? null
                                            : found.rubrics().get(0));
                    if (same != null && !same.equals(before)) {
                        rubric.set(same);
                    } else {
                        read();
                    }
                },
                notices::failed);
    }

    private Decisions.@Nullable Question question() {
        String who = trainee.get();
        Rubric with = rubric.get();
        return who == null || with == null
                ? null
                : new Decisions.Question(
                        who, with.id(), null, last.get(), Decisions.USUAL_WISH, Decisions.USUAL_MINUTES);
    }

    private void read() {
        int mine = ++turn;
        Decisions.Question question = question();
        if (question == null) {
            shown.set(null);
            return;
        }
        work.run(
                progress -> {
                    DecisionView view = decisions.show(question);
                    return new Shown(view, DecisionFigures.digest(view), decisions.of(question.trainee()));
                },
                now -> {
                    if (turn == mine) {
                        shown.set(now);
                    }
                },
                notices::failed);
    }

    /** Keeps the panel's words with the figures that are on the screen. */
    public void record(String wording, String panel) {
        Decisions.Question question = question();
        Shown now = shown.get();
        if (question == null || now == null) {
            return;
        }
        work.run(
                progress -> decisions.record(question, wording, Codes.in(panel), LocalDate.now(clock), now.digest()),
                kept -> {
                    read();
                    notices.show(Notice.done(texts.get("decision.kept", kept.trainee()), null));
                },
                notices::failed);
    }
}
