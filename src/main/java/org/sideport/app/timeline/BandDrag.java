package org.sideport.app.timeline;

import java.util.LinkedHashSet;
import java.util.Set;

/** Selects what lies in a rectangle; a click selects nothing and goes there. */
final class BandDrag implements Drag {

    private final TimelineView view;
    private final TimelineSkin skin;
    private final double fromX;
    private final double fromY;
    private final Set<Object> before;
    private boolean moved;

    BandDrag(TimelineView view, TimelineSkin skin, double x, double y, boolean adding) {
        this.view = view;
        this.skin = skin;
        fromX = x;
        fromY = y;
        before = adding ? view.selectionProperty().get() : Set.of();
        if (!adding) {
            view.select(Set.of());
        }
    }

    @Override
    public void to(double x, double y, boolean free) {
        if (!moved && Math.hypot(x - fromX, y - fromY) < SLACK) {
            return;
        }
        moved = true;
        double heldX = Math.max(view.headerWidth(), Math.min(view.getWidth(), x));
        double heldY = Math.max(TimelineSkin.RULER, Math.min(view.getHeight() - TimelineSkin.MAP, y));
        double left = Math.min(fromX, heldX);
        double top = Math.min(fromY, heldY);
        double width = Math.abs(heldX - fromX);
        double height = Math.abs(heldY - fromY);
        skin.rubberBand(left, top, Math.max(1, width), Math.max(1, height));
        TimeScale scale = view.scaleProperty().get();
        LaneLayout layout = view.index().layout();
        double above = -TimelineSkin.RULER + skin.scrolled();
        int firstLane = layout.laneAt(top + above);
        int lastLane = layout.laneAt(top + height + above);
        Set<Object> now = new LinkedHashSet<>(before);
        now.addAll(view.index()
                .keysIn(
                        new Stretch(
                                scale.timeAt(left - view.headerWidth()),
                                Math.max(
                                        scale.timeAt(left - view.headerWidth()),
                                        scale.timeAt(left + width - view.headerWidth()))),
                        firstLane < 0 ? layout.size() : firstLane,
                        lastLane < 0 ? layout.size() - 1 : lastLane));
        view.select(now);
    }

    @Override
    public void drop() {
        skin.rubberBand(0, 0, 0, 0);
        if (!moved) {
            view.seek(view.scaleProperty().get().timeAt(fromX - view.headerWidth()));
        }
    }

    @Override
    public void cancel() {
        skin.rubberBand(0, 0, 0, 0);
        view.select(before);
    }
}
