package org.sideport.app.refine;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.Supplier;
import javafx.beans.InvalidationListener;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.ReadOnlyIntegerWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.value.ObservableValue;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.app.timeline.FrameGrid;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;
import org.sideport.timing.Boundary;

/**
 * A walk from boundary to boundary: each is moved to its very frame and confirmed. Moving is only a trial until it is
 * confirmed, which is one step for undo. Screen's thread only.
 */
public final class RefineViewModel {

    /** How far candidates may lie from the boundary, microseconds. */
    static final long NEAR_US = 5_000_000;

    private final ReviewViewModel review;
    private final ObservableValue<@Nullable FrameGrid> frames;
    private final Supplier<List<Long>> candidates;
    private final Notices notices;
    private final Texts texts;
    private final ReadOnlyBooleanWrapper active = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyObjectWrapper<@Nullable Boundary> current = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<MediaTime> position = new ReadOnlyObjectWrapper<>(MediaTime.ZERO);
    private final ReadOnlyIntegerWrapper total = new ReadOnlyIntegerWrapper(0);
    private final ReadOnlyIntegerWrapper done = new ReadOnlyIntegerWrapper(0);
    private List<Boundary> boundaries = List.of();
    /** Confirmed here, and not yet heard of from the store. */
    private final Set<Boundary> underWay = new HashSet<>();
    /** What was rough before an undo or redo. */
    private @Nullable Set<Boundary> roughBefore;

    /**
     * @param frames where the recording's frames start, once that is known
     * @param candidates where a boundary is proposed by what was measured, microseconds
     */
    public RefineViewModel(
            ReviewViewModel review,
            ObservableValue<@Nullable FrameGrid> frames,
            Supplier<List<Long>> candidates,
            Notices notices,
            Texts texts) {
        this.review = review;
        this.frames = frames;
        this.candidates = candidates;
        this.notices = notices;
        this.texts = texts;
        // the rows are filled last, when tags and what is confirmed of them are both as they will be
        review.rows().addListener((InvalidationListener) rows -> tagsChanged());
        review.current().openedProperty().addListener((property, old, now) -> leave());
    }

    public ReadOnlyBooleanProperty activeProperty() {
        return active.getReadOnlyProperty();
    }

    /** The boundary that is worked on, where it is stored; {@code null} while none is. */
    public ReadOnlyObjectProperty<@Nullable Boundary> currentProperty() {
        return current.getReadOnlyProperty();
    }

    /** Where the boundary is tried. */
    public ReadOnlyObjectProperty<MediaTime> positionProperty() {
        return position.getReadOnlyProperty();
    }

    public ReadOnlyIntegerProperty totalProperty() {
        return total.getReadOnlyProperty();
    }

    public ReadOnlyIntegerProperty confirmedProperty() {
        return done.getReadOnlyProperty();
    }

    public ReviewViewModel review() {
        return review;
    }

    /** {@code null} until the frames are known. */
    public @Nullable FrameGrid frames() {
        return frames.getValue();
    }

    /** Why there is nothing to refine, or {@code null} if there is. */
    public @Nullable String whyNot() {
        String why = review.whyNoTagging();
        if (why != null) {
            return why;
        }
        if (review.taggingProperty().get() == null || boundaries.isEmpty()) {
            return texts.get("refine.why.nothing");
        }
        return frames.getValue() == null ? texts.get("refine.why.frames") : null;
    }

    // ---- the walk

    /** Begins at the next rough boundary from the picture on, or ends. */
    public void toggle() {
        if (active.get()) {
            leave();
            return;
        }
        count();
        String why = whyNot();
        if (why != null) {
            notices.hint(why);
            return;
        }
        review.desk().pause();
        review.otherPhase().cancel();
        underWay.clear();
        MediaTime now = review.desk().timeProperty().get();
        Boundary first = nextRough(MediaTime.ofMicros(Math.max(0, now.micros() - 1)));
        active.set(true);
        go(first == null ? boundaries.get(0) : first);
    }

    public void leave() {
        if (active.get()) {
            active.set(false);
            current.set(null);
            roughBefore = null;
        }
    }

    /** Tries the boundary {@code by} frames later, earlier if negative, or as far as it fits. */
    public void move(int by) {
        FrameGrid grid = frames.getValue();
        if (grid == null || current.get() == null) {
            return;
        }
        long us = position.get().micros();
        int at = grid.at(us);
        // a time between two frames is left for the nearer of them in this direction
        int from = by < 0 && grid.start(at) < us ? at + 1 : at;
        int wanted = Math.max(0, Math.min(grid.size() - 1, from + by));
        int step = wanted > from ? -1 : 1;
        InputException refusal = null;
        for (int frame = wanted; frame != from; frame += step) {
            MediaTime to = MediaTime.ofMicros(grid.start(frame));
            refusal = refusal(to);
            if (refusal == null) {
                tryAt(to);
                return;
            }
        }
        if (refusal != null) {
            notices.hint(texts.get("refine.why.noRoom"));
        }
    }

    /** Tries the boundary at this frame. */
    public void moveTo(int frame) {
        FrameGrid grid = frames.getValue();
        if (grid != null && current.get() != null) {
            MediaTime to = MediaTime.ofMicros(grid.start(frame));
            if (refusal(to) == null) {
                tryAt(to);
            } else {
                notices.hint(texts.get("refine.why.noRoom"));
            }
        }
    }

    private @Nullable InputException refusal(MediaTime to) {
        Boundary moving = current.get();
        Tagging now = review.taggingProperty().get();
        if (moving == null || now == null) {
            return null;
        }
        try {
            moving.moved(now, to);
            return null;
        } catch (InputException doesNotFit) {
            return doesNotFit;
        }
    }

    /** Tries the next candidate near by, later or earlier. */
    public void jump(boolean later) {
        MediaTime now = position.get();
        MediaTime best = null;
        for (MediaTime candidate : candidates()) {
            boolean beyond = later ? candidate.isAfter(now) : candidate.isBefore(now);
            if (beyond && (best == null || later == candidate.isBefore(best))) {
                best = candidate;
            }
        }
        if (best == null) {
            notices.hint(texts.get(later ? "refine.why.noLater" : "refine.why.noEarlier"));
        } else {
            tryAt(best);
        }
    }

    /** First frames at which the measured traces change, near the boundary and where it fits; in the order of time. */
    public List<MediaTime> candidates() {
        FrameGrid grid = frames.getValue();
        Boundary moving = current.get();
        List<MediaTime> near = new ArrayList<>();
        if (grid != null && moving != null) {
            for (long candidate : candidates.get()) {
                MediaTime at = MediaTime.ofMicros(grid.nearest(candidate));
                if (Math.abs(at.micros() - moving.at().micros()) <= NEAR_US
                        && !near.contains(at)
                        && refusal(at) == null) {
                    near.add(at);
                }
            }
        }
        near.sort(null);
        return near;
    }

    /** Confirms the boundary on the frame where it is tried, and goes to the next rough one. */
    public void confirm() {
        Boundary moving = current.get();
        if (moving == null) {
            return;
        }
        MediaTime to = position.get();
        underWay.add(moving);
        review.edit(session -> session.confirm(moving, to));
        Boundary next = nextRough(moving.at());
        if (next == null) {
            current.set(new Boundary(moving.kind(), to));
            review.desk().seek(to);
        } else {
            go(next);
        }
    }

    /** To the boundary before, whether it is confirmed or not. */
    public void back() {
        walk(-1);
    }

    /** To the next boundary, and this one stays as it is. */
    public void skip() {
        walk(1);
    }

    private void walk(int by) {
        Boundary from = current.get();
        if (from == null || boundaries.isEmpty()) {
            return;
        }
        int place = 0;
        while (place < boundaries.size() && boundaries.get(place).compareTo(from) < 0) {
            place++;
        }
        int wanted = place + by;
        if (wanted < 0 || wanted >= boundaries.size()) {
            notices.hint(texts.get(by < 0 ? "refine.why.first" : "refine.why.last"));
        } else {
            go(boundaries.get(wanted));
        }
    }

    public void undo() {
        roughBefore = rough();
        review.undo();
    }

    public void redo() {
        roughBefore = rough();
        review.redo();
    }

    private void go(Boundary boundary) {
        FrameGrid grid = frames.getValue();
        MediaTime at = boundary.at();
        boolean end = !at.isBefore(review.desk().durationProperty().get());
        current.set(boundary);
        tryAt(grid == null || end ? at : MediaTime.ofMicros(grid.start(grid.at(at.micros()))));
    }

    private void tryAt(MediaTime to) {
        position.set(to);
        review.desk().pause();
        review.desk().seek(to);
    }

    /** The next one that is not confirmed after a time, else the first of all. */
    private @Nullable Boundary nextRough(MediaTime after) {
        Boundary first = null;
        for (Boundary boundary : boundaries) {
            if (isRough(boundary)) {
                if (boundary.at().isAfter(after)) {
                    return boundary;
                }
                first = first == null ? boundary : first;
            }
        }
        return first;
    }

    private boolean isRough(Boundary boundary) {
        return !review.confirmedProperty().get().contains(boundary) && !underWay.contains(boundary);
    }

    private Set<Boundary> rough() {
        Set<Boundary> rough = new HashSet<>(boundaries);
        rough.removeAll(review.confirmedProperty().get());
        return rough;
    }

    // ---- following the tags

    private void count() {
        Tagging now = review.taggingProperty().get();
        boundaries = now == null ? List.of() : Boundary.of(now);
        total.set(boundaries.size());
        done.set((int) boundaries.stream()
                .filter(review.confirmedProperty().get()::contains)
                .count());
        underWay.retainAll(boundaries);
        underWay.removeAll(review.confirmedProperty().get());
    }

    private void tagsChanged() {
        count();
        if (!active.get()) {
            return;
        }
        if (boundaries.isEmpty()) {
            leave();
            return;
        }
        Set<Boundary> before = roughBefore;
        roughBefore = null;
        Boundary at = current.get();
        if (before != null) {
            rough().stream()
                    .filter(boundary -> !before.contains(boundary))
                    .sorted()
                    .findFirst()
                    .ifPresent(boundary -> {
                        underWay.remove(boundary);
                        go(boundary);
                    });
        } else if (at == null || !boundaries.contains(at)) {
            Boundary next = at == null ? null : nextRough(at.at());
            go(Objects.requireNonNullElse(next, boundaries.get(0)));
        }
    }

    // ---- words

    /** What starts, ends or happens at the boundary. */
    public String what() {
        Boundary boundary = current.get();
        Tagging now = review.taggingProperty().get();
        if (boundary == null || now == null) {
            return "";
        }
        if (boundary.kind() == Boundary.Kind.EVENT) {
            return String.join(
                    ", ",
                    now.events().stream()
                            .filter(event -> event.at().equals(boundary.at()))
                            .map(event -> nameOfEvent(event.kind()))
                            .toList());
        }
        String ends = null;
        String starts = null;
        for (PhaseSpan span : now.spans()) {
            if (boundary.at().equals(span.end())) {
                ends = name(span.phase());
            }
            if (span.start().equals(boundary.at())) {
                starts = name(span.phase());
            }
        }
        if (ends != null && starts != null) {
            return texts.get("refine.both", ends, starts);
        }
        return ends != null ? texts.get("refine.ends", ends) : texts.get("refine.starts", starts == null ? "" : starts);
    }

    private String name(String phase) {
        var procedure = review.procedureProperty().get();
        return procedure == null
                ? phase
                : procedure.find(phase).map(term -> term.name()).orElse(phase);
    }

    private String nameOfEvent(String kind) {
        var procedure = review.procedureProperty().get();
        return procedure == null
                ? kind
                : procedure.findEvent(kind).map(found -> found.name()).orElse(kind);
    }

    /** How many frames the boundary has been moved, negative towards the start. */
    public int movedBy() {
        FrameGrid grid = frames.getValue();
        Boundary boundary = current.get();
        return grid == null || boundary == null
                ? 0
                : grid.at(position.get().micros()) - grid.at(boundary.at().micros());
    }

    /** Whether the current boundary is confirmed and not moved since. */
    public boolean isConfirmedHere() {
        Boundary boundary = current.get();
        return boundary != null && movedBy() == 0 && !isRough(boundary);
    }

    /** The phase or step that would run on a frame with the boundary where it is tried; {@code null} in idle time. */
    public @Nullable String phaseAt(MediaTime frame) {
        Boundary boundary = current.get();
        Tagging now = review.taggingProperty().get();
        if (boundary == null || now == null) {
            return null;
        }
        Tagging shown = now;
        try {
            shown = boundary.moved(now, position.get());
        } catch (InputException gone) {
            // shown as it is
        }
        PhaseSpan span = shown.spanAt(frame);
        return span == null ? null : span.phase();
    }
}
