package org.sideport.app.timeline;

import java.util.Set;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;

/** Draws a lane of points: at most one mark every few pixels, complications before others, with names where there is room. */
final class PointPainter {

    private static final double CLOSEST = 5;

    private final TimelineView view;
    private final LabelFit labels;
    private final Glyphs moments = new Glyphs();
    private final Glyphs complicationMarks = new Glyphs();
    private final Glyphs chosen = new Glyphs();

    PointPainter(TimelineView view, LabelFit labels) {
        this.view = view;
        this.labels = labels;
    }

    void paint(GraphicsContext gc, int lane, double y, double height, Preview preview, double left, double right) {
        PointIndex points = view.index().points(lane);
        if (points == null) {
            return;
        }
        TimeScale scale = view.scaleProperty().get();
        double margin = Glyphs.SIZE * scale.usPerPixel();
        int first = preview == Preview.NONE ? points.firstFrom((long) (scale.startUs() - margin)) : 0;
        double endUs = scale.endUs() + margin;
        double top = Math.rint(y + (height - Glyphs.SIZE) / 2);
        marks(gc, points, first, endUs, top, preview, scale, left, false);
        marks(gc, points, first, endUs, top, preview, scale, left, true);
        gc.setFill(view.colours().text.getValue());
        for (int i = first; i < points.size() && points.point(i).atUs() <= endUs; i++) {
            double x = left + scale.x(points.point(i).atUs()) + Glyphs.SIZE / 2.0;
            double next =
                    i + 1 < points.size() ? left + scale.x(points.point(i + 1).atUs()) - Glyphs.SIZE / 2.0 : right;
            next = Math.min(next, right);
            if (x >= left + Glyphs.SIZE && next - x > Glyphs.SIZE && preview == Preview.NONE) {
                String name = points.point(i).name();
                if (labels.width(name) + 2 * LabelFit.MARGIN <= next - x) {
                    gc.fillText(name, Math.rint(x + LabelFit.MARGIN), y + height / 2);
                }
            }
        }
    }

    private void marks(
            GraphicsContext gc,
            PointIndex points,
            int first,
            double endUs,
            double top,
            Preview preview,
            TimeScale scale,
            double left,
            boolean complications) {
        TimelineColours colours = view.colours();
        Set<Object> selected = view.selectionProperty().get();
        Color colour = complications ? colours.text.getValue() : colours.muted.getValue();
        double last = Double.NEGATIVE_INFINITY;
        for (int i = first; i < points.size(); i++) {
            Lane.Point point = points.point(i);
            if (point.atUs() > endUs && preview == Preview.NONE) {
                break;
            }
            if ((point.mark() == Lane.Mark.COMPLICATION) != complications) {
                continue;
            }
            double x = Math.rint(left + scale.x(preview.place(point.key(), true, point.atUs())) - Glyphs.SIZE / 2.0);
            boolean isChosen = !selected.isEmpty() && selected.contains(point.key());
            if (x - last < CLOSEST && !isChosen) {
                continue;
            }
            last = x;
            gc.drawImage(
                    isChosen
                            ? chosen.of(point.mark(), colours.accent.getValue())
                            : (complications ? complicationMarks : moments).of(point.mark(), colour),
                    x,
                    top);
        }
    }
}
