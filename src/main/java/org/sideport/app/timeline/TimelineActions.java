package org.sideport.app.timeline;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** What keys and menu do with the selected items. */
final class TimelineActions {

    private final TimelineView view;

    TimelineActions(TimelineView view) {
        this.view = view;
    }

    private Set<Object> selected() {
        return view.selectionProperty().get();
    }

    /** Selected items that may be edited. */
    Set<Object> editable() {
        return selected().stream().filter(view.index()::isEditableKey).collect(Collectors.toSet());
    }

    private List<Lane.Span> editableSpans() {
        return view.index().spansOf(editable());
    }

    boolean canSplit(long us) {
        return spanToSplit(us) != null;
    }

    /** The selected span that runs at a time; where none is selected the one that runs there on the first lane that may be edited. */
    private Lane.@Nullable Span spanToSplit(long us) {
        for (Lane.Span span : editableSpans()) {
            if (us > span.startUs() && us < span.endUs()) {
                return span;
            }
        }
        TimelineIndex index = view.index();
        for (int lane = 0; selected().isEmpty() && lane < index.layout().size(); lane++) {
            SpanIndex spans = index.spans(lane);
            Lane.Span span = spans == null || !index.isEditable(lane) ? null : spans.at(us, 0, 0);
            if (span != null && us > span.startUs() && us < span.endUs()) {
                return span;
            }
        }
        return null;
    }

    void split(long us) {
        Lane.Span span = spanToSplit(us);
        if (span != null) {
            FrameGrid frames = view.framesProperty().get();
            view.request(new TimelineEdit.Split(span.key(), frames == null ? us : frames.nearest(us)));
        }
    }

    boolean canMerge() {
        return editableSpans().size() > 1;
    }

    void merge() {
        List<Lane.Span> spans = new ArrayList<>(editableSpans());
        spans.sort(Comparator.comparingLong(Lane.Span::startUs));
        if (spans.size() > 1) {
            view.request(
                    new TimelineEdit.Merge(spans.stream().map(Lane.Span::key).toList()));
        }
    }

    boolean canRelabel() {
        return !editableSpans().isEmpty();
    }

    void relabel(String label) {
        Set<Object> keys = editableSpans().stream().map(Lane.Span::key).collect(Collectors.toSet());
        if (!keys.isEmpty()) {
            view.request(new TimelineEdit.Relabel(keys, label));
        }
    }

    boolean canDelete() {
        return !editable().isEmpty();
    }

    void delete() {
        Set<Object> keys = editable();
        if (!keys.isEmpty()) {
            view.request(new TimelineEdit.Delete(keys));
        }
    }

    /** Moves the start, or the end, of the selected span by frames. */
    void nudge(boolean end, int frames) {
        List<Lane.Span> spans = editableSpans();
        FrameGrid grid = view.framesProperty().get();
        if (spans.size() != 1 || grid == null || (end && spans.get(0).open())) {
            return;
        }
        Lane.Span span = spans.get(0);
        long from = end ? span.endUs() : span.startUs();
        String lane = laneOf(span.key());
        SpanIndex index = view.index().spans(view.index().laneOf(lane));
        long to =
                from >= view.model().durationUs() && frames < 0 ? grid.start(grid.size() - 1) : grid.step(from, frames);
        if (index != null && to != from) {
            Stretch room = index.roomFor(from, view.model().durationUs());
            if (to >= room.startUs() && to <= room.endUs()) {
                view.request(new TimelineEdit.MoveBoundary(lane, from, to));
                view.scrub(to);
            }
        }
    }

    /** Moves the selected items by frames; the first of them decides how long a frame is. */
    void move(int frames) {
        FrameGrid grid = view.framesProperty().get();
        Set<Object> keys = editable();
        long first = Long.MAX_VALUE;
        for (Lane.Span span : view.index().spansOf(keys)) {
            first = Math.min(first, span.startUs());
        }
        for (Lane.Point point : view.index().pointsOf(keys)) {
            first = Math.min(first, point.atUs());
        }
        if (grid != null && !keys.isEmpty()) {
            long by = grid.step(first, frames) - first;
            if (by != 0) {
                view.request(new TimelineEdit.MoveItems(keys, by));
            }
        }
    }

    private String laneOf(Object key) {
        for (Lane lane : view.model().lanes()) {
            if (lane instanceof Lane.Spans spans
                    && spans.editable()
                    && spans.spans().stream().anyMatch(s -> s.key().equals(key))) {
                return lane.id();
            }
        }
        return "";
    }

    // ---- selecting

    /** The item after the selected one on its lane, or before it; the one at the playhead where none is selected. */
    void selectNext(int by, boolean extend) {
        int lane = laneInUse();
        if (lane < 0) {
            return;
        }
        List<Object> keys = keysOf(lane);
        if (keys.isEmpty()) {
            return;
        }
        int place = -1;
        for (int i = 0; i < keys.size(); i++) {
            if (selected().contains(keys.get(i)) && (place < 0 || by > 0)) {
                place = i;
            }
        }
        int next = place < 0
                ? nearest(lane, view.playheadProperty().get().micros())
                : Math.max(0, Math.min(keys.size() - 1, place + by));
        Object key = keys.get(next);
        Set<Object> now = new LinkedHashSet<>(extend ? selected() : Set.of());
        now.add(key);
        view.select(now);
        long start = startOf(lane, next);
        reveal(start);
        view.seek(start);
    }

    /** Goes to the lane above or below that holds items, and selects what lies at the playhead there. */
    void selectLane(int by) {
        int lane = laneInUse();
        for (int next = lane + by;
                lane >= 0 && next >= 0 && next < view.index().layout().size();
                next += by) {
            List<Object> keys = keysOf(next);
            if (!keys.isEmpty()) {
                view.select(Set.of(
                        keys.get(nearest(next, view.playheadProperty().get().micros()))));
                return;
            }
        }
    }

    void selectAll() {
        int lane = laneInUse();
        if (lane >= 0) {
            view.select(new LinkedHashSet<>(keysOf(lane)));
        }
    }

    /** The lane of the selected items, or the first that holds any. */
    private int laneInUse() {
        int first = -1;
        for (int lane = 0; lane < view.index().layout().size(); lane++) {
            List<Object> keys = keysOf(lane);
            if (keys.stream().anyMatch(selected()::contains)) {
                return lane;
            }
            if (first < 0 && !keys.isEmpty()) {
                first = lane;
            }
        }
        return first;
    }

    private List<Object> keysOf(int lane) {
        List<Object> keys = new ArrayList<>();
        SpanIndex spans = view.index().spans(lane);
        for (int i = 0; spans != null && i < spans.size(); i++) {
            keys.add(spans.span(i).key());
        }
        PointIndex points = view.index().points(lane);
        for (int i = 0; points != null && i < points.size(); i++) {
            keys.add(points.point(i).key());
        }
        return keys;
    }

    private long startOf(int lane, int item) {
        SpanIndex spans = view.index().spans(lane);
        if (spans != null) {
            return spans.span(item).startUs();
        }
        PointIndex points = view.index().points(lane);
        return points == null ? 0 : points.point(item).atUs();
    }

    /** The last item that starts at or before a time, or the first. */
    private int nearest(int lane, long us) {
        int size = keysOf(lane).size();
        int best = 0;
        for (int i = 0; i < size; i++) {
            if (startOf(lane, i) <= us) {
                best = i;
            }
        }
        return best;
    }

    private void reveal(long us) {
        TimeScale now = view.scaleProperty().get();
        double x = now.x(us);
        if (x < 0 || x > now.width()) {
            view.pan(x - now.width() / 2);
        }
    }

    /** Shows the selected items as large as may be. */
    void showSelected() {
        long from = Long.MAX_VALUE;
        long to = 0;
        for (Lane.Span span : view.index().spansOf(selected())) {
            from = Math.min(from, span.startUs());
            to = Math.max(to, span.endUs());
        }
        for (Lane.Point point : view.index().pointsOf(selected())) {
            from = Math.min(from, point.atUs());
            to = Math.max(to, point.atUs());
        }
        if (from <= to) {
            long margin = Math.max(200_000, (to - from) / 20);
            view.show(Math.max(0, from - margin), to + margin);
        }
    }
}
