package org.sideport.app.compare;

import java.util.List;
import java.util.Objects;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.app.Settings;
import org.sideport.model.Procedure.Term;
import org.sideport.workflow.CompareCases.Candidate;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.StackCases;
import org.sideport.workflow.StackCases.Stack;

/** One trainee's cases above one another. */
public final class StackViewModel {

    /** Cases of a procedure by one trainee. */
    public record Group(String trainee, String procedure) {}

    private final StackCases stacks;
    private final Background work;
    private final Notices notices;
    private final Settings settings;
    private final ObservableList<Group> groups = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable Group> group = new SimpleObjectProperty<>(null);
    private final ObjectProperty<Level> level = new SimpleObjectProperty<>(Level.STEP);
    private final ObjectProperty<@Nullable Term> anchor = new SimpleObjectProperty<>(null);
    private final BooleanProperty onlyAnchor = new SimpleBooleanProperty(false);
    private final ReadOnlyObjectWrapper<@Nullable Stack> stack = new ReadOnlyObjectWrapper<>(null);
    private int turn;

    public StackViewModel(StackCases stacks, Background work, Notices notices, Settings settings) {
        this.stacks = stacks;
        this.work = work;
        this.notices = notices;
        this.settings = settings;
        group.addListener((property, old, now) -> read());
        level.addListener((property, old, now) -> read());
    }

    /** Those that have tagged cases, by trainee. */
    public ObservableList<Group> groups() {
        return groups;
    }

    public ObjectProperty<@Nullable Group> groupProperty() {
        return group;
    }

    public ObjectProperty<Level> levelProperty() {
        return level;
    }

    /** The phase whose start all bars share; {@code null} for the start of the first phase. */
    public ObjectProperty<@Nullable Term> anchorProperty() {
        return anchor;
    }

    /** True to show that phase only. */
    public BooleanProperty onlyAnchorProperty() {
        return onlyAnchor;
    }

    public ReadOnlyObjectProperty<@Nullable Stack> stackProperty() {
        return stack.getReadOnlyProperty();
    }

    /** Takes the cases that there are now. @param trainee whose stack is offered first; may be {@code null} */
    public void offer(List<Candidate> candidates, @Nullable String trainee) {
        List<Group> found = candidates.stream()
                .filter(c -> c.surgicalCase().hidden().isEmpty())
                .map(c -> new Group(c.surgicalCase().trainee(), c.surgicalCase().procedure()))
                .distinct()
                .sorted(java.util.Comparator.comparing(Group::trainee).thenComparing(Group::procedure))
                .toList();
        Group before = group.get();
        groups.setAll(found);
        Group wanted = before != null && found.contains(before)
                ? before
                : found.stream()
                        .filter(g -> g.trainee().equals(trainee))
                        .findFirst()
                        .orElse(found.isEmpty() ? null : found.get(0));
        if (Objects.equals(wanted, before)) {
            read();
        } else {
            group.set(wanted);
        }
    }

    private void read() {
        Group wanted = group.get();
        int mine = ++turn;
        if (wanted == null) {
            stack.set(null);
            return;
        }
        String annotator = settings.get("annotator", "");
        Level named = level.get();
        work.run(
                progress ->
                        stacks.of(wanted.trainee(), wanted.procedure(), annotator.isBlank() ? null : annotator, named),
                now -> {
                    if (turn == mine) {
                        arrived(now);
                    }
                },
                notices::failed);
    }

    private void arrived(Stack now) {
        Term before = anchor.get();
        Term same = before == null
                ? null
                : now.terms().stream()
                        .filter(t -> t.id().equals(before.id()))
                        .findFirst()
                        .orElse(null);
        if (same == null) {
            onlyAnchor.set(false);
        }
        stack.set(now);
        anchor.set(same);
    }
}
