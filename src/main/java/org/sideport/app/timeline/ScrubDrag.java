package org.sideport.app.timeline;

/** The picture follows the mouse. */
final class ScrubDrag implements Drag {

    private final TimelineView view;

    ScrubDrag(TimelineView view) {
        this.view = view;
    }

    @Override
    public void to(double x, double y, boolean free) {
        view.scrub(view.scaleProperty().get().timeAt(x - view.headerWidth()));
    }

    @Override
    public void drop() {
        // it stays where it is
    }
}
