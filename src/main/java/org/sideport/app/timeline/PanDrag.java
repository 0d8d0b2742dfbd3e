package org.sideport.app.timeline;

/** The lanes follow the mouse. */
final class PanDrag implements Drag {

    private final TimelineView view;
    private double last;

    PanDrag(TimelineView view, double x) {
        this.view = view;
        last = x;
    }

    @Override
    public void to(double x, double y, boolean free) {
        view.pan(last - x);
        last = x;
    }

    @Override
    public void drop() {
        // it stays where it is
    }
}
