package org.sideport.app.timeline;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A boundary follows the mouse between its neighbours, drawn to what is near, always onto a frame. */
final class BoundaryDrag implements Drag {

    private static final double REACH = 6;

    private final TimelineView view;
    private final TimelineSkin skin;
    private final Hit.Boundary boundary;
    private final double grip;
    private final double pressedAt;
    private final Stretch room;
    private final List<Long> others;
    private Snapper.@Nullable Snap now;

    BoundaryDrag(TimelineView view, TimelineSkin skin, Hit.Boundary boundary, double x) {
        this.view = view;
        this.skin = skin;
        this.boundary = boundary;
        pressedAt = x;
        grip = view.xOf(boundary.us()) - x;
        SpanIndex spans = view.index().spans(boundary.lane());
        room = spans == null
                ? new Stretch(0, view.model().durationUs())
                : roomOnAll(spans.roomFor(boundary.us(), view.model().durationUs()));
        others = view.index().boundariesBut(boundary.us());
    }

    /** Several lanes may show the same boundaries in different detail: the nearest neighbour on any that may be edited counts. */
    private Stretch roomOnAll(Stretch own) {
        long from = own.startUs();
        long to = own.endUs();
        for (int lane = 0; lane < view.index().layout().size(); lane++) {
            SpanIndex spans = view.index().spans(lane);
            if (spans == null || !view.index().isEditable(lane)) {
                continue;
            }
            for (long each : spans.boundaries()) {
                if (each < boundary.us()) {
                    from = Math.max(from, each + 1);
                } else if (each > boundary.us()) {
                    to = Math.min(to, each - 1);
                }
            }
        }
        return new Stretch(from, Math.max(from, to));
    }

    @Override
    public void to(double x, double y, boolean free) {
        if (now == null && Math.abs(x - pressedAt) < SLACK) {
            return;
        }
        TimeScale scale = view.scaleProperty().get();
        Snapper.Snap snap = Snapper.snap(
                scale.timeAt(x + grip - view.headerWidth()),
                free ? -1 : REACH * scale.usPerPixel(),
                view.model(),
                others,
                -1,
                view.framesProperty().get(),
                room);
        now = snap;
        skin.preview(new Preview.Edge(boundary.us(), snap.us()));
        boolean drawn = snap.to() != Snapper.To.FRAME && snap.to() != Snapper.To.FREE;
        skin.snapLine(drawn ? (Long) snap.us() : null);
        view.scrub(snap.us());
    }

    @Override
    public void drop() {
        Snapper.Snap last = now;
        cancel();
        if (last == null) {
            select();
            view.seek(boundary.us());
        } else if (last.us() != boundary.us()) {
            view.request(new TimelineEdit.MoveBoundary(
                    view.index().lane(boundary.lane()).id(), boundary.us(), last.us()));
        }
    }

    /** A click that moves nothing selects what starts there. */
    private void select() {
        SpanIndex spans = view.index().spans(boundary.lane());
        for (int row = 0; spans != null && row < spans.rowCount(); row++) {
            Lane.Span span = spans.at(boundary.us(), row, 0);
            if (span != null) {
                view.select(Set.of(span.key()));
                return;
            }
        }
    }

    @Override
    public void cancel() {
        skin.preview(Preview.NONE);
        skin.snapLine(null);
    }
}
