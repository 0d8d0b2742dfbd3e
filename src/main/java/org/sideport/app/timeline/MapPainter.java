package org.sideport.app.timeline;

import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;

/** Draws the whole recording small: the first lane of spans, points of the others, borders and gaps. */
final class MapPainter {

    private final TimelineView view;

    MapPainter(TimelineView view) {
        this.view = view;
    }

    void paint(GraphicsContext gc, double width, double height) {
        TimelineColours colours = view.colours();
        TimelineIndex index = view.index();
        long duration = index.model().durationUs();
        gc.setFill(colours.ground.getValue());
        gc.fillRect(0, 0, width, height);
        if (duration == 0) {
            return;
        }
        double perUs = width / duration;
        SpanIndex spans = null;
        for (int lane = 0; spans == null && lane < index.layout().size(); lane++) {
            spans = index.spans(lane);
        }
        double reached = -1;
        for (int i = 0; spans != null && i < spans.size(); i++) {
            Lane.Span span = spans.span(i);
            double from = Math.floor(span.startUs() * perUs);
            double to = Math.max(from + 1, Math.floor(span.endUs() * perUs));
            if (to > reached) {
                gc.setFill(span.tint().fill());
                gc.fillRect(from, 2, to - from, height - 4);
                reached = to;
            }
        }
        gc.setFill(colours.text.getValue());
        for (int lane = 0; lane < index.layout().size(); lane++) {
            PointIndex points = index.points(lane);
            double last = -1;
            for (int i = 0; points != null && i < points.size(); i++) {
                double x = Math.floor(points.point(i).atUs() * perUs);
                if (x > last) {
                    gc.fillRect(x, height - 3, 1, 3);
                    last = x;
                }
            }
        }
        Color border = colours.border.getValue();
        gc.setFill(border);
        for (long each : index.model().borders()) {
            gc.fillRect(Math.floor(each * perUs), 0, 1, height);
        }
        gc.setFill(colours.gap.getValue());
        for (Stretch gap : index.model().gaps()) {
            gc.fillRect(Math.floor(gap.startUs() * perUs), 0, Math.max(1, gap.lengthUs() * perUs), height);
        }
    }
}
