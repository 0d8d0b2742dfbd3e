package org.sideport.app.review;

import java.util.Optional;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.Supplier;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.model.Tagging;
import org.sideport.store.DatabaseAwayException;
import org.sideport.timing.Boundary;
import org.sideport.timing.CaseTiming;
import org.sideport.workflow.ComputeTimings;
import org.sideport.workflow.TagSession;

/** Changes the tags of one session in the background, one change after the other, and tells what came of each. */
final class TagWork implements TagStamps.Edits {

    /** What a change leaves behind. */
    record Outcome(
            TagSession session,
            Tagging tagging,
            Set<Boundary> confirmed,
            boolean canUndo,
            boolean canRedo,
            @Nullable CaseTiming timing) {}

    private final ComputeTimings timings;
    private final Background work;
    private final Notices notices;
    private final BooleanSupplier refused;
    private final Consumer<Outcome> took;
    private final ObjectProperty<ComputeTimings.Level> level = new SimpleObjectProperty<>(ComputeTimings.Level.PHASE);
    private @Nullable TagSession session;

    /**
     * @param refused says why nothing can be tagged now, where that is so, and returns true then
     * @param took hears of every change of the session that is open
     */
    TagWork(ComputeTimings timings, Background work, Notices notices, BooleanSupplier refused, Consumer<Outcome> took) {
        this.timings = timings;
        this.work = work;
        this.notices = notices;
        this.refused = refused;
        this.took = took;
        level.addListener((property, old, now) -> timesChanged());
    }

    ObjectProperty<ComputeTimings.Level> levelProperty() {
        return level;
    }

    /** Reckons the times anew, after something other than a tag has changed them. */
    void timesChanged() {
        run(session -> {});
    }

    void close() {
        session = null;
    }

    /** @param still whether the session is yet wanted when it is there */
    void open(Supplier<TagSession> opener, BooleanSupplier still, Consumer<TagSession> opened) {
        work.run(
                progress -> outcome(opener.get()),
                outcome -> {
                    if (still.getAsBoolean()) {
                        session = outcome.session();
                        opened.accept(outcome.session());
                        took.accept(outcome);
                    }
                },
                notices::failed);
    }

    @Override
    public void edit(Consumer<TagSession> change) {
        if (refused.getAsBoolean()) {
            return;
        }
        if (session == null) {
            notices.hintOf("review.why.reading");
            return;
        }
        run(change);
    }

    private void run(Consumer<TagSession> change) {
        TagSession now = session;
        if (now == null) {
            return;
        }
        work.run(
                progress -> {
                    try {
                        change.accept(now);
                        return new Edited(outcome(now), null);
                    } catch (DatabaseAwayException kept) {
                        return new Edited(withoutTimes(now), kept);
                    }
                },
                edited -> {
                    notices.clear();
                    tell(edited.outcome());
                    if (edited.kept() != null) {
                        notices.failed(edited.kept());
                    }
                },
                notices::failed);
    }

    /** @param kept why the tags are on this computer only, or {@code null} */
    private record Edited(Outcome outcome, @Nullable DatabaseAwayException kept) {}

    /** Without taking away a notice that the person may be reading. */
    @Override
    public void putRight(Supplier<Optional<TagSession>> change) {
        work.run(
                progress -> change.get().map(this::outcome),
                (Optional<Outcome> outcome) -> outcome.ifPresent(this::tell),
                notices::failed);
    }

    private void tell(Outcome outcome) {
        if (session == outcome.session()) {
            took.accept(outcome);
        }
    }

    private Outcome outcome(TagSession of) {
        CaseTiming computed = of.tagging().spans().isEmpty() ? null : timings.of(of, level.get());
        return outcome(of, computed);
    }

    /** Times take what only the database knows. */
    private static Outcome withoutTimes(TagSession of) {
        return outcome(of, null);
    }

    private static Outcome outcome(TagSession of, @Nullable CaseTiming computed) {
        return new Outcome(of, of.tagging(), of.confirmed(), of.canUndo(), of.canRedo(), computed);
    }
}
