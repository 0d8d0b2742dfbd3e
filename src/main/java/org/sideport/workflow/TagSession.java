package org.sideport.workflow;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.ConflictException;
import org.sideport.store.DatabaseAwayException;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import org.sideport.timing.TaggingEdits;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * An annotator at work on one case. Each edit is in the store when its call returns, undo and redo included; an edit that
 * throws has changed nothing, but for {@link DatabaseAwayException}: then it is done and kept on this computer, to be saved
 * when the database is back. Thread-safe: calls wait for one another.
 */
public final class TagSession {

    private final Workspace workspace;
    private final SurgicalCase surgicalCase;
    private final Procedure procedure;
    private final String annotator;
    private final Deque<State> undo = new ArrayDeque<>();
    private final Deque<State> redo = new ArrayDeque<>();
    private State now;
    private long edits;
    private final PendingTags pending;
    /** What the store may hold: as it was last saved, or as it was tried to save while the database was away. */
    private final Set<Tagging> stored = new LinkedHashSet<>();

    private boolean kept;

    /**
     * @param edit number of the edit that led to it, 0 for what was opened
     * @param confirmed those of its boundaries that have been confirmed on their frame
     */
    private record State(long edit, Tagging tagging, Set<Boundary> confirmed) {
        State {
            confirmed = Boundary.kept(confirmed, tagging);
        }
    }

    TagSession(
            Workspace workspace,
            SurgicalCase surgicalCase,
            Procedure procedure,
            String annotator,
            Tagging tagging,
            Set<Boundary> confirmed) {
        this.workspace = workspace;
        this.surgicalCase = surgicalCase;
        this.procedure = procedure;
        this.annotator = annotator;
        this.now = new State(0, tagging, confirmed);
        this.pending = new PendingTags(workspace.dir(), surgicalCase.code(), annotator);
        this.stored.add(tagging);
    }

    /**
     * Takes up tags that could not be saved before, and saves them; nothing if there are none.
     *
     * @throws InputException if the tags were changed elsewhere meanwhile; their file is put aside
     */
    synchronized void takeUp() {
        pending.find().ifPresent(left -> {
            stored.clear();
            stored.addAll(left.seen());
            stored.add(left.tagging());
            kept = true;
            try {
                apply(left.tagging(), left.confirmed());
                retry();
            } catch (ConflictException changed) {
                throw new InputException(
                        changed.what() + "; your tags from while the database was away are in a file",
                        pending.putAside().toString(),
                        "open the case again: it shows what is stored; take from the file what is to be added",
                        changed);
            }
        });
    }

    /** True while tags are in a file on this computer only, because the database is away. */
    public synchronized boolean isKept() {
        return kept;
    }

    /** Tries once more to save what is kept on this computer only; nothing if all is saved. */
    public synchronized void retry() {
        if (kept) {
            save(now, () -> {});
        }
    }

    public SurgicalCase surgicalCase() {
        return surgicalCase;
    }

    public Procedure procedure() {
        return procedure;
    }

    public String annotator() {
        return annotator;
    }

    public synchronized Tagging tagging() {
        return now.tagging();
    }

    /** The boundaries that have been confirmed on their frame. One that is moved, by whatever edit, is so no longer. */
    public synchronized Set<Boundary> confirmed() {
        return now.confirmed();
    }

    /** Number of the edit that led to what is tagged now, for {@link #retime}; 0 if there was none. */
    public synchronized long edit() {
        return now.edit();
    }

    /**
     * Puts right the time of an edit, as if it had been made with the right one at once: no further step for undo, and
     * edits made meanwhile stay.
     *
     * @param edit its number
     * @param from the start or end that it has set
     * @param to where that belongs
     * @return false if it does not fit there, and nothing has changed
     */
    public synchronized boolean retime(long edit, MediaTime from, MediaTime to) {
        Deque<State> newUndo = new ArrayDeque<>();
        Deque<State> newRedo = new ArrayDeque<>();
        State newNow;
        try {
            requireWithin(to);
            undo.forEach(state -> newUndo.addLast(retimed(state, edit, from, to)));
            redo.forEach(state -> newRedo.addLast(retimed(state, edit, from, to)));
            newNow = retimed(now, edit, from, to);
        } catch (InputException | IllegalArgumentException doesNotFit) {
            return false;
        }
        Runnable took = () -> {
            undo.clear();
            undo.addAll(newUndo);
            redo.clear();
            redo.addAll(newRedo);
            now = newNow;
        };
        if (newNow.equals(now)) {
            took.run();
        } else {
            save(newNow, took);
        }
        return true;
    }

    private static State retimed(State state, long edit, MediaTime from, MediaTime to) {
        boolean concerned = state.edit() >= edit
                && state.tagging().spans().stream().anyMatch(s -> s.start().equals(from) || from.equals(s.end()));
        return concerned
                ? new State(state.edit(), TaggingEdits.moveBoundary(state.tagging(), from, to), state.confirmed())
                : state;
    }

    /**
     * Starts a phase or step, and ends what runs there.
     *
     * @throws InputException if the procedure has no such phase, or the time lies beyond the recording
     */
    public synchronized void startPhase(String term, MediaTime at, @Nullable Operator operator) {
        boolean idle = requireTerm(term).phase().idle();
        if (idle) {
            endPhase(at);
        } else {
            apply(TaggingEdits.startPhase(now.tagging(), term, requireWithin(at), operator));
        }
    }

    /**
     * Ends what runs, into idle.
     *
     * @throws InputException if nothing runs at that time, or only starts are tagged and it is not the last
     */
    public synchronized void endPhase(MediaTime at) {
        List<PhaseSpan> spans = now.tagging().spans();
        PhaseSpan running = now.tagging().spanAt(at);
        if (now.tagging().style() == TaggingStyle.STARTS_ONLY
                && running != null
                && !running.equals(spans.get(spans.size() - 1))) {
            throw new InputException(
                    "only starts are tagged here, so each phase runs on to the next",
                    null,
                    "start the next phase, or change to starts and ends");
        }
        apply(TaggingEdits.endPhase(now.tagging(), requireWithin(at)));
    }

    /** Moves the boundary that lies at {@code boundary}; see {@link TaggingEdits#moveBoundary}. */
    public synchronized void moveBoundary(MediaTime boundary, MediaTime to) {
        if (!boundary.equals(to)) {
            Tagging moved = TaggingEdits.moveBoundary(now.tagging(), boundary, requireWithinOrEnd(to));
            if (moved.spans().stream().anyMatch(s -> s.start().equals(to))) {
                requireWithin(to);
            }
            apply(moved);
        }
    }

    /**
     * Confirms that a boundary belongs on the frame that starts at {@code to}, and moves it there: one step for undo.
     *
     * @throws InputException if there is no such boundary, or it does not fit there
     */
    public synchronized void confirm(Boundary boundary, MediaTime to) {
        Tagging moved = moved(boundary, to);
        Set<Boundary> confirmed = new HashSet<>(now.confirmed());
        confirmed.add(new Boundary(boundary.kind(), to));
        apply(moved, confirmed);
    }

    /** What would be tagged with a boundary at another time; changes nothing. */
    public synchronized Tagging moved(Boundary boundary, MediaTime to) {
        if (!Boundary.of(now.tagging()).contains(boundary)) {
            throw new InputException(
                    "nothing is tagged at " + boundary.at().toClockText() + " any more",
                    null,
                    "look at the list again");
        }
        Tagging moved = boundary.moved(now.tagging(), to);
        boolean mayBeEnd = boundary.kind() == Boundary.Kind.PHASE
                && moved.spans().stream().noneMatch(span -> span.start().equals(to));
        if (mayBeEnd) {
            requireWithinOrEnd(to);
        } else {
            requireWithin(to);
        }
        return moved;
    }

    /**
     * Tags in another style from now on. For what is not begun yet that is no edit, and nothing is stored before the
     * first tag.
     *
     * @throws InputException if idle time would be lost
     */
    public synchronized void setStyle(TaggingStyle style) {
        if (now.tagging().isEmpty() && !canUndo()) {
            now = new State(now.edit(), new Tagging(style, List.of(), List.of()), Set.of());
        } else {
            apply(TaggingEdits.inStyle(now.tagging(), style));
        }
    }

    /**
     * What runs at {@code at} was another phase from there on. The idle phase ends it there.
     *
     * @throws InputException if nothing runs there
     */
    public synchronized void relabelFrom(MediaTime at, String term) {
        boolean idle = requireTerm(term).phase().idle();
        if (!idle) {
            apply(TaggingEdits.relabelFrom(now.tagging(), requireWithin(at), term));
            return;
        }
        PhaseSpan running = TaggingEdits.running(now.tagging(), at);
        if (running.start().equals(at)) {
            removeSpan(running);
        } else {
            endPhase(at);
        }
    }

    public synchronized void relabel(PhaseSpan span, String term) {
        if (requireTerm(term).phase().idle()) {
            removeSpan(span);
        } else {
            apply(TaggingEdits.relabel(now.tagging(), span, term));
        }
    }

    /** All of them in one step; the idle phase removes them. */
    public synchronized void relabel(List<PhaseSpan> spans, String term) {
        if (requireTerm(term).phase().idle()) {
            apply(TaggingEdits.remove(now.tagging(), spans, List.of()));
        } else {
            apply(TaggingEdits.relabel(now.tagging(), spans, term));
        }
    }

    /** See {@link TaggingEdits#split}. */
    public synchronized void split(PhaseSpan span, MediaTime at) {
        apply(TaggingEdits.split(now.tagging(), span, requireWithin(at)));
    }

    /** See {@link TaggingEdits#merge}. */
    public synchronized void merge(List<PhaseSpan> spans) {
        apply(TaggingEdits.merge(now.tagging(), spans));
    }

    /** See {@link TaggingEdits#shift}; nothing may come to lie beyond the recording. */
    public synchronized void shift(List<PhaseSpan> spans, List<PointEvent> events, long byUs) {
        Tagging moved = TaggingEdits.shift(now.tagging(), spans, events, byUs);
        moved.spans().forEach(span -> {
            requireWithin(span.start());
            MediaTime end = span.end();
            if (end != null) {
                requireWithinOrEnd(end);
            }
        });
        moved.events().forEach(event -> requireWithin(event.at()));
        apply(moved);
    }

    /** All of them in one step. */
    public synchronized void remove(List<PhaseSpan> spans, List<PointEvent> events) {
        apply(TaggingEdits.remove(now.tagging(), spans, events));
    }

    public synchronized void setOperator(PhaseSpan span, @Nullable Operator operator) {
        apply(TaggingEdits.setOperator(now.tagging(), span, operator));
    }

    public synchronized void removeSpan(PhaseSpan span) {
        apply(TaggingEdits.removeSpan(now.tagging(), span));
    }

    public synchronized void addEvent(PointEvent event) {
        requireEvent(event);
        apply(TaggingEdits.addEvent(now.tagging(), event));
    }

    public synchronized void removeEvent(PointEvent event) {
        apply(TaggingEdits.removeEvent(now.tagging(), event));
    }

    public synchronized void replaceEvent(PointEvent old, PointEvent now) {
        requireEvent(now);
        apply(TaggingEdits.replaceEvent(this.now.tagging(), old, now));
    }

    public synchronized boolean canUndo() {
        return !undo.isEmpty();
    }

    public synchronized boolean canRedo() {
        return !redo.isEmpty();
    }

    /** Takes back the last edit; nothing if there is none. */
    public synchronized void undo() {
        step(undo, redo);
    }

    /** Does again what was taken back last; nothing if there is none. */
    public synchronized void redo() {
        step(redo, undo);
    }

    private void step(Deque<State> from, Deque<State> to) {
        State target = from.peek();
        if (target != null) {
            save(target, () -> {
                from.pop();
                to.push(now);
                now = target;
            });
        }
    }

    private void apply(Tagging changed) {
        apply(changed, now.confirmed());
    }

    private void apply(Tagging changed, Set<Boundary> confirmed) {
        State next = new State(edits + 1, TaggingEdits.withoutGaps(changed), confirmed);
        if (next.tagging().equals(now.tagging()) && next.confirmed().equals(now.confirmed())) {
            return;
        }
        save(next, () -> {
            undo.push(now);
            redo.clear();
            edits++;
            now = next;
        });
    }

    /** @param took makes the session be in that state: once it is saved, or kept */
    private void save(State state, Runnable took) {
        try {
            workspace.change(stores -> {
                Access.requireOwn(stores.caller(), annotator);
                Access.require(stores, Permission.TAG, surgicalCase.code());
                stores.taggings().save(surgicalCase.code(), annotator, state.tagging(), state.confirmed(), stored);
            });
        } catch (DatabaseAwayException away) {
            boolean again = kept && state == now;
            stored.add(state.tagging());
            // what is kept already is not written again: a later session may have kept newer tags there meanwhile
            Path file = again ? pending.file() : pending.keep(state.tagging(), state.confirmed(), stored);
            took.run();
            if (!kept) {
                kept = true;
                PendingFolder.retryLater(this::retry);
            }
            throw away.keptIn(file.toString());
        }
        took.run();
        stored.clear();
        stored.add(state.tagging());
        if (kept) {
            kept = false;
            if (pending.find()
                    .filter(left -> left.tagging().equals(state.tagging()))
                    .isPresent()) {
                pending.forget();
            }
        }
    }

    private Procedure.Term requireTerm(String term) {
        return procedure
                .find(term)
                .filter(found -> found.id().equals(term))
                .orElseThrow(() -> new InputException(
                        "unknown phase \"" + term + "\"", null, "choose one of the procedure " + procedure.id()));
    }

    private void requireEvent(PointEvent event) {
        if (procedure.events().stream().noneMatch(kind -> kind.id().equals(event.kind()))) {
            throw new InputException(
                    "unknown event \"" + event.kind() + "\"", null, "choose one of the procedure " + procedure.id());
        }
        requireWithin(event.at());
    }

    private MediaTime requireWithin(MediaTime at) {
        Recording recording = surgicalCase.recording();
        if (recording != null && !at.isBefore(recording.duration())) {
            throw beyond(at, recording);
        }
        return at;
    }

    /** An end may lie on the recording's very end. */
    private MediaTime requireWithinOrEnd(MediaTime at) {
        Recording recording = surgicalCase.recording();
        if (recording != null && at.isAfter(recording.duration())) {
            throw beyond(at, recording);
        }
        return at;
    }

    private static InputException beyond(MediaTime at, Recording recording) {
        return new InputException(
                at.toClockText() + " lies beyond the end of the recording at "
                        + recording.duration().toClockText(),
                null,
                "choose a time within it");
    }
}
