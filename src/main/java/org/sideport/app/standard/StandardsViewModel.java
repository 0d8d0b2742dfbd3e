package org.sideport.app.standard;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.people.Me;
import org.sideport.model.Rubric;
import org.sideport.model.Standard;
import org.sideport.stats.Outcome;
import org.sideport.workflow.Codes;
import org.sideport.workflow.CutBasis;
import org.sideport.workflow.CutProposal;
import org.sideport.workflow.StandardRounds;
import org.sideport.workflow.Standards;
import org.sideport.workflow.Vocabularies;

/** Rounds of judges, cuts and agreed standards of one rubric at a time. */
public final class StandardsViewModel {

    private record State(List<StandardRounds.View> rounds, List<Standard> standards) {}

    private final StandardRounds rounds;
    private final Standards standards;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final Clock clock;
    private final Me me;
    private final RubricChoice choice;
    private final ObservableList<Standard> agreed = FXCollections.observableArrayList();
    private final ObservableList<StandardRounds.View> allRounds = FXCollections.observableArrayList();
    private final ReadOnlyObjectWrapper<StandardRounds.@Nullable Sheet> sheet = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<@Nullable Outcome<CutProposal>> proposal = new ReadOnlyObjectWrapper<>(null);
    private int turn;

    public StandardsViewModel(
            StandardRounds rounds,
            Standards standards,
            Vocabularies vocabularies,
            Background work,
            Notices notices,
            Texts texts,
            Clock clock,
            Me me) {
        this.rounds = rounds;
        this.standards = standards;
        this.choice = new RubricChoice(vocabularies, work, notices);
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        this.clock = clock;
        this.me = me;
        choice.chosenProperty().addListener((property, old, now) -> {
            sheet.set(null);
            proposal.set(null);
            read();
        });
    }

    public ObservableList<Rubric> rubrics() {
        return choice.offered();
    }

    public ObjectProperty<@Nullable Rubric> rubricProperty() {
        return choice.chosenProperty();
    }

    /** Rounds of the rubric as it is now, the newest first. */
    public ObservableList<StandardRounds.View> rounds() {
        return allRounds;
    }

    /** Standards of the rubric, all versions, the newest first. */
    public ObservableList<Standard> agreed() {
        return agreed;
    }

    /** The sheet of the judge who sits here now; {@code null} if nobody does. */
    public ReadOnlyObjectProperty<StandardRounds.@Nullable Sheet> sheetProperty() {
        return sheet.getReadOnlyProperty();
    }

    /** The cut that was computed last; {@code null} before. */
    public ReadOnlyObjectProperty<@Nullable Outcome<CutProposal>> proposalProperty() {
        return proposal.getReadOnlyProperty();
    }

    /** Reads what there is now. */
    public void load() {
        choice.load(this::read);
    }

    private void read() {
        Rubric wanted = choice.chosen();
        int mine = ++turn;
        if (wanted == null) {
            return;
        }
        work.run(
                progress -> new State(
                        rounds.all().stream()
                                .filter(v -> v.round().rubric().equals(wanted.id()))
                                .toList(),
                        standards.all().stream()
                                .filter(s -> s.rubric().equals(wanted.id()))
                                .sorted(java.util.Comparator.comparing(Standard::setAt)
                                        .reversed())
                                .toList()),
                now -> {
                    if (turn == mine) {
                        allRounds.setAll(now.rounds());
                        agreed.setAll(now.standards());
                    }
                },
                notices::failed);
    }

    /** The newest round; {@code null} if there is none. */
    public StandardRounds.@Nullable View newest() {
        return allRounds.isEmpty() ? null : allRounds.get(0);
    }

    public void open(String judges, String note) {
        Rubric of = choice.chosen();
        if (of != null) {
            change(() -> rounds.open(of.id(), Codes.in(judges), note));
        }
    }

    /** Of who signed in, who is the likeliest to sit down; empty where nobody signs in. */
    public String ownCode() {
        return me.code();
    }

    /** A judge sits down. */
    public void sit(String judge) {
        StandardRounds.View now = newest();
        if (now != null) {
            work.run(progress -> rounds.sheet(now.round().id(), judge), sheet::set, notices::failed);
        }
    }

    /** Keeps the points of the judge who sits here; the sheet goes, so that the next judge sees nothing. */
    public void save(Map<String, Double> points) {
        StandardRounds.Sheet now = sheet.get();
        if (now == null) {
            return;
        }
        work.run(
                progress -> rounds.judge(now.round().id(), now.judge(), points),
                saved -> {
                    sheet.set(null);
                    read();
                    notices.show(Notice.done(
                            texts.get(
                                    "standard.saved",
                                    saved.judge(),
                                    saved.points().size(),
                                    saved.rubric().items().size()),
                            null));
                },
                notices::failed);
    }

    /** The judge gets up without keeping anything. */
    public void leave() {
        sheet.set(null);
    }

    public void close(String leaveOut, String note) {
        StandardRounds.View now = newest();
        if (now != null) {
            sheet.set(null);
            change(() -> rounds.close(now.round().id(), Codes.in(leaveOut), note));
        }
    }

    private void change(Supplier<StandardRounds.View> act) {
        work.run(progress -> act.get(), done -> read(), notices::failed);
    }

    /** Computes a cut; nothing is kept. */
    public void propose(Supplier<CutBasis> basis) {
        Rubric of = choice.chosen();
        if (of == null) {
            return;
        }
        proposal.set(null);
        work.run(progress -> standards.propose(of.id(), null, basis.get()), proposal::set, notices::failed);
    }

    /** Keeps the computed cut as agreed today. */
    public void agree(String by, String note) {
        if (proposal.get() instanceof Outcome.Found<CutProposal> found) {
            work.run(
                    progress -> standards.agree(found.value(), Codes.in(by), LocalDate.now(clock), note),
                    kept -> {
                        proposal.set(null);
                        read();
                    },
                    notices::failed);
        }
    }
}
