package org.sideport.app.assign;

import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Formats;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.model.AgreedMark;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;
import org.sideport.model.MarkingRules;
import org.sideport.model.Rating;
import org.sideport.workflow.assign.Adjudication;
import org.sideport.workflow.assign.Adjudication.Disagreement;
import org.sideport.workflow.assign.Assignments;

/** Marks that differ beyond the limits: asks for a third, and records what stands. */
public final class DisagreementsViewModel {

    private final ReadOnlyBooleanWrapper loaded = new ReadOnlyBooleanWrapper(false);
    private final Adjudication adjudication;
    private final Assignments assignments;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final ObservableList<Disagreement> shown = FXCollections.observableArrayList();
    private final ReadOnlyObjectWrapper<MarkingRules> rules = new ReadOnlyObjectWrapper<>(MarkingRules.USUAL);

    public DisagreementsViewModel(
            Adjudication adjudication, Assignments assignments, Background work, Notices notices, Texts texts) {
        this.adjudication = adjudication;
        this.assignments = assignments;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
    }

    public ObservableList<Disagreement> shown() {
        return shown;
    }

    public ReadOnlyObjectProperty<MarkingRules> rulesProperty() {
        return rules.getReadOnlyProperty();
    }

    private record Read(List<Disagreement> found, MarkingRules rules) {}

    /** True once what there is was read: before that nothing is known to be empty. */
    public ReadOnlyBooleanProperty loadedProperty() {
        return loaded.getReadOnlyProperty();
    }

    public void refresh() {
        work.run(
                progress -> new Read(adjudication.disagreements(), adjudication.rules()),
                read -> {
                    shown.setAll(read.found());
                    rules.set(read.rules());
                    loaded.set(true);
                },
                notices::failed);
    }

    public void setRules(boolean selfFirst, int percent, int items) {
        work.run(
                progress -> {
                    adjudication.setRules(new MarkingRules(selfFirst, percent / 100.0, items));
                    return true;
                },
                done -> {
                    notices.show(Notice.done(texts.get("differ.rules.saved"), null));
                    refresh();
                },
                notices::failed);
    }

    /** Gives the case to a third assessor, blind. */
    public void giveThird(@Nullable Disagreement one, String assessor) {
        if (one == null || assessor.isBlank()) {
            notices.hint(texts.get("differ.why.third"));
            return;
        }
        work.run(
                progress -> assignments.give(
                        List.of(one.caseCode()),
                        assessor,
                        new Assignments.Terms(Assignment.Purpose.THIRD, Hidden.ALL, null)),
                given -> {
                    notices.show(Notice.done(texts.get("assign.given", given.size(), assessor.strip()), null));
                    refresh();
                },
                notices::failed);
    }

    /** Records whose marks stand. */
    public void letStand(@Nullable Disagreement one, @Nullable String assessor, String by, String why) {
        if (one == null || assessor == null) {
            notices.hint(texts.get("differ.why.stand"));
            return;
        }
        work.run(
                progress -> adjudication.letStand(one.caseCode(), one.rubric(), assessor, by, why),
                settled -> {
                    notices.show(Notice.done(texts.get("differ.settled", one.caseCode(), assessor), null));
                    refresh();
                },
                notices::failed);
    }

    /** Fetches the marks of a case, for people to agree anew. */
    void differing(@Nullable Disagreement one, Consumer<AgreedDraft> then) {
        if (one == null) {
            notices.hint(texts.get("differ.why.agree"));
            return;
        }
        work.run(
                progress -> adjudication.differing(one.caseCode(), one.rubric()),
                differing -> then.accept(new AgreedDraft(differing.rubric(), differing.by(), texts)),
                notices::failed);
    }

    /** Records marks that were agreed upon anew. */
    void agree(String caseCode, Rating agreed, String by, String why) {
        work.run(
                progress -> adjudication.agree(caseCode, agreed, by, why),
                settled -> {
                    notices.show(Notice.done(texts.get("differ.agreed", caseCode), null));
                    refresh();
                },
                notices::failed);
    }

    public static String marks(Disagreement one) {
        return one.assessors().entrySet().stream()
                .map(e -> e.getKey() + " " + Formats.percent(e.getValue()))
                .collect(Collectors.joining(", "));
    }

    public String far(Disagreement one) {
        return texts.get("differ.far", one.far(), one.shared());
    }

    public String stage(Disagreement one) {
        AgreedMark settled = one.settled();
        return one.stage() == Adjudication.Stage.SETTLED && settled != null
                ? texts.get("differ.stage.SETTLED.by", settled.agreedBy())
                : texts.get("differ.stage." + one.stage().name());
    }
}
