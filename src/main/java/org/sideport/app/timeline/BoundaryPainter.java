package org.sideport.app.timeline;

import java.util.Arrays;
import javafx.scene.canvas.GraphicsContext;

/**
 * Draws which boundaries are rough and which are confirmed. The shape tells them apart: rough ones are a row of dots,
 * confirmed ones a bar with a head. Those closer together than a few pixels are drawn once, rough before confirmed.
 */
final class BoundaryPainter {

    private static final double CLOSEST = 5;
    private static final double HEAD = 7;

    private BoundaryPainter() {}

    static void paint(
            GraphicsContext gc,
            TimelineView view,
            Preview preview,
            double scrolled,
            double left,
            double right,
            double height) {
        if (preview != Preview.NONE) {
            return;
        }
        for (boolean confirmed : new boolean[] {true, false}) {
            double[] last = new double[view.index().layout().size()];
            Arrays.fill(last, Double.NEGATIVE_INFINITY);
            for (BoundaryMark mark : view.boundaryMarksProperty().get()) {
                int lane = view.index().laneOf(mark.laneId());
                if (mark.confirmed() != confirmed || lane < 0) {
                    continue;
                }
                double x = Math.rint(left + view.scaleProperty().get().x(mark.atUs()));
                double top = TimelineSkin.RULER + view.index().layout().top(lane) - scrolled;
                double bottom = top + view.index().layout().height(lane) - 1;
                if (x < left
                        || x > right
                        || bottom < TimelineSkin.RULER
                        || top > height
                        || Math.abs(x - last[lane]) < CLOSEST) {
                    continue;
                }
                last[lane] = x;
                if (view.index().lane(lane) instanceof Lane.Points) {
                    foot(gc, view, x, bottom, confirmed);
                } else if (confirmed) {
                    bar(gc, view, x, top, bottom);
                } else {
                    dots(gc, view, x, top, bottom);
                }
            }
        }
    }

    private static void bar(GraphicsContext gc, TimelineView view, double x, double top, double bottom) {
        gc.setFill(view.colours().back.getValue());
        gc.fillRect(x - 2, top, 4, bottom - top);
        gc.fillRect(x - HEAD / 2 - 1, top, HEAD + 2, 4);
        gc.setFill(view.colours().text.getValue());
        gc.fillRect(x - 1, top, 2, bottom - top);
        gc.fillRect(x - HEAD / 2, top, HEAD, 3);
    }

    private static void dots(GraphicsContext gc, TimelineView view, double x, double top, double bottom) {
        for (double y = top + 1; y + 2 <= bottom; y += 5) {
            gc.setFill(view.colours().back.getValue());
            gc.fillRect(x - 2, y - 1, 4, 4);
            gc.setFill(view.colours().text.getValue());
            gc.fillRect(x - 1, y, 2, 2);
        }
    }

    /** Under the sign of an event: a line where it is confirmed, nothing where it is rough. */
    private static void foot(GraphicsContext gc, TimelineView view, double x, double bottom, boolean confirmed) {
        if (confirmed) {
            gc.setFill(view.colours().text.getValue());
            gc.fillRect(x - HEAD / 2, bottom - 1, HEAD, 2);
        }
    }
}
