package org.sideport.app.assign;

import java.time.Clock;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Hidden;
import org.sideport.workflow.Codes;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.SecondDraw;
import org.sideport.workflow.consent.ConsentDoubt;
import org.sideport.workflow.consent.ConsentDoubts;

/** Gives cases to assessors and shows what became of them. */
public final class AssignmentsViewModel {

    /** Which are shown. */
    public enum Filter {
        ALL,
        OPEN,
        LATE,
        DONE
    }

    private final ReadOnlyBooleanWrapper loaded = new ReadOnlyBooleanWrapper(false);
    private final Assignments assignments;
    private final ConsentDoubts doubts;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final Clock clock;
    private final ObservableList<Assignment> shown = FXCollections.observableArrayList();
    private final ReadOnlyStringWrapper summary = new ReadOnlyStringWrapper("");
    private List<Assignment> all = List.of();
    private Filter filter = Filter.ALL;

    public AssignmentsViewModel(
            Assignments assignments, ConsentDoubts doubts, Background work, Notices notices, Texts texts, Clock clock) {
        this.assignments = assignments;
        this.doubts = doubts;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        this.clock = clock;
    }

    public ObservableList<Assignment> shown() {
        return shown;
    }

    /** How many are open, late and done. */
    public ReadOnlyStringProperty summaryProperty() {
        return summary.getReadOnlyProperty();
    }

    public LocalDate today() {
        return LocalDate.now(clock);
    }

    /** True once what there is was read: before that nothing is known to be empty. */
    public ReadOnlyBooleanProperty loadedProperty() {
        return loaded.getReadOnlyProperty();
    }

    public void refresh() {
        work.run(progress -> assignments.all(), this::arrived, notices::failed);
    }

    private void arrived(List<Assignment> now) {
        all = now;
        long open = count(Assignment.State.OPEN);
        long late = now.stream().filter(a -> a.isLate(today())).count();
        summary.set(texts.get("assign.summary", open, late, count(Assignment.State.DONE)));
        show(filter);
        loaded.set(true);
    }

    private long count(Assignment.State state) {
        return all.stream().filter(a -> a.state() == state).count();
    }

    public void show(Filter wanted) {
        filter = wanted;
        shown.setAll(all.stream().filter(this::isWanted).toList());
    }

    private boolean isWanted(Assignment one) {
        return switch (filter) {
            case ALL -> true;
            case OPEN -> one.state() == Assignment.State.OPEN;
            case LATE -> one.isLate(today());
            case DONE -> one.state() == Assignment.State.DONE;
        };
    }

    /** @param cases codes, separated by commas or spaces */
    public void give(String cases, String assessor, Purpose purpose, boolean blind, @Nullable LocalDate due) {
        List<String> codes = Codes.in(cases);
        if (codes.isEmpty() || assessor.isBlank()) {
            notices.hint(texts.get("assign.why.nothing"));
            return;
        }
        work.run(
                progress -> {
                    List<Assignment> given = assignments.give(codes, assessor, terms(purpose, blind, due));
                    return doubts.ofGiven(
                            given.stream().map(Assignment::caseCode).toList());
                },
                doubtful -> {
                    said(texts.get("assign.given", codes.size(), assessor.strip()), doubtful);
                    refresh();
                },
                notices::failed);
    }

    private static Assignments.Terms terms(Purpose purpose, boolean blind, @Nullable LocalDate due) {
        return new Assignments.Terms(purpose, blind ? Hidden.ALL : Set.of(), due);
    }

    /** @param percent of the cases that are to be marked twice, 1 to 100 */
    public void draw(int percent, long seed, boolean blind, @Nullable LocalDate due) {
        work.run(
                progress -> {
                    SecondDraw.Drawn drawn =
                            assignments.draw(List.of(), percent / 100.0, seed, terms(Purpose.SECOND, blind, due), true);
                    return new Given(
                            drawn,
                            doubts.ofGiven(drawn.pairs().stream()
                                    .map(SecondDraw.Pair::caseCode)
                                    .toList()));
                },
                given -> {
                    said(given.drawn(), given.doubtful());
                    refresh();
                },
                notices::failed);
    }

    /** What was drawn, and what must be said of its consents. */
    private record Given(SecondDraw.Drawn drawn, List<ConsentDoubt> doubtful) {}

    private void said(SecondDraw.Drawn drawn, List<ConsentDoubt> doubtful) {
        int without = drawn.leftOut().cases();
        String leftOut = without == 0 ? "" : " " + texts.get("consent.leftOut.assessment", without) + ".";
        if (drawn.isConnected()) {
            said(texts.get("assign.drawn", drawn.pairs().size()) + leftOut, doubtful);
            return;
        }
        String groups =
                drawn.groups().stream().map(group -> String.join(", ", group)).collect(Collectors.joining("; "));
        notices.hint(texts.get(drawn.possible() ? "assign.apart" : "assign.apart.impossible", groups) + leftOut);
    }

    /** Done, or with a hint where something must be said of the consents: how many cases of each kind. */
    private void said(String done, List<ConsentDoubt> doubtful) {
        if (doubtful.isEmpty()) {
            notices.show(Notice.done(done, null));
            return;
        }
        String kinds = doubtful.stream()
                .collect(Collectors.groupingBy(ConsentDoubt::situation, TreeMap::new, Collectors.counting()))
                .entrySet()
                .stream()
                .map(e -> texts.get(
                        "assign.doubt",
                        e.getValue(),
                        texts.get("keeping.situation." + e.getKey().name())))
                .collect(Collectors.joining("; "));
        notices.hint(texts.get("assign.doubts", done, kinds));
    }

    /** Takes one back. The caller has asked. */
    public void withdraw(Assignment one) {
        work.run(progress -> assignments.withdraw(one.id()), gone -> refresh(), notices::failed);
    }

    /** Why this one cannot be taken back, or empty. */
    public String whyNoWithdrawal(@Nullable Assignment one) {
        return one == null
                ? texts.get("assign.why.select")
                : one.state() == Assignment.State.OPEN ? "" : texts.get("assign.why.notOpen");
    }

    /** State in words: an open one that is due is late. */
    public String state(Assignment one) {
        return texts.get(
                one.isLate(today())
                        ? "assign.state.LATE"
                        : "assign.state." + one.state().name());
    }

    /** "all", "nothing", or what is hidden. */
    public String hidden(Assignment one) {
        if (one.hidden().equals(Hidden.ALL)) {
            return texts.get("assign.hidden.all");
        }
        return one.hidden().isEmpty()
                ? texts.get("assign.hidden.nothing")
                : Arrays.stream(Hidden.values())
                        .filter(one::hides)
                        .map(h -> texts.get("hidden." + h.name()))
                        .collect(Collectors.joining(", "));
    }

    public String due(Assignment one) {
        LocalDate due = one.dueOn();
        return due == null ? "" : texts.day(due);
    }
}
