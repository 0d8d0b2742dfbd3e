package org.sideport.app.timeline;

import java.util.List;
import java.util.Set;

/** The selected items follow the mouse, all by the same length, so that the first of them starts on a frame. */
final class ItemsDrag implements Drag {

    private static final double REACH = 6;

    private final TimelineView view;
    private final TimelineSkin skin;
    private final double pressedAt;
    private final long clickedUs;
    private final Set<Object> keys;
    private final long first;
    private final long last;
    private boolean moved;
    private long by;

    /** @param clickedUs where to go if it is a click after all */
    ItemsDrag(TimelineView view, TimelineSkin skin, double x, long clickedUs) {
        this.view = view;
        this.skin = skin;
        this.clickedUs = clickedUs;
        pressedAt = x;
        keys = new TimelineActions(view).editable();
        long from = Long.MAX_VALUE;
        long to = 0;
        for (Lane.Span span : view.index().spansOf(keys)) {
            from = Math.min(from, span.startUs());
            to = Math.max(to, span.open() ? span.startUs() : span.endUs());
        }
        for (Lane.Point point : view.index().pointsOf(keys)) {
            from = Math.min(from, point.atUs());
            to = Math.max(to, point.atUs());
        }
        first = from;
        last = to;
    }

    @Override
    public void to(double x, double y, boolean free) {
        if (!moved && Math.abs(x - pressedAt) < SLACK) {
            return;
        }
        moved = true;
        TimeScale scale = view.scaleProperty().get();
        long duration = view.model().durationUs();
        Stretch room = new Stretch(0, Math.max(0, duration - (last - first)));
        long wanted = Math.max(0, first + Math.round((x - pressedAt) * scale.usPerPixel()));
        Snapper.Snap snap = Snapper.snap(
                wanted,
                free ? -1 : REACH * scale.usPerPixel(),
                view.model(),
                List.of(),
                -1,
                view.framesProperty().get(),
                room);
        by = snap.us() - first;
        skin.preview(new Preview.Shift(keys, by));
        view.scrub(snap.us());
    }

    @Override
    public void drop() {
        skin.preview(Preview.NONE);
        if (!moved) {
            view.seek(clickedUs);
        } else if (by != 0) {
            view.request(new TimelineEdit.MoveItems(keys, by));
        }
    }

    @Override
    public void cancel() {
        skin.preview(Preview.NONE);
    }
}
