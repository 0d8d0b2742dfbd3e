package org.sideport.app.timeline;

/** The part that is shown follows the mouse on the map. */
final class MapDrag implements Drag {

    private final TimelineView view;

    MapDrag(TimelineView view) {
        this.view = view;
    }

    @Override
    public void to(double x, double y, boolean free) {
        TimeScale now = view.scaleProperty().get();
        double share = (x - view.headerWidth()) / Math.max(1, now.width());
        double middle = share * now.durationUs();
        view.pan((middle - (now.startUs() + now.endUs()) / 2) / now.usPerPixel());
    }

    @Override
    public void drop() {
        // it stays where it is
    }
}
