package org.sideport.app.timeline;

import java.util.Set;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;

/**
 * Draws a lane of spans. Those narrower than a pixel are drawn once for each pixel and row, so that the work is bounded by
 * the width of the screen.
 */
final class SpanPainter {

    private static final double[] DASHES = {3, 3};
    /** Idle stretches narrower than this stay plain, pixels. */
    private static final double NARROWEST_HATCH = 3;

    private static final double NARROWEST_LABEL = 14;

    private final TimelineView view;
    private final LabelFit labels;
    private final Hatch idle = new Hatch(5);

    SpanPainter(TimelineView view, LabelFit labels) {
        this.view = view;
        this.labels = labels;
    }

    void paint(GraphicsContext gc, int lane, double y, Preview preview, double left, double right) {
        SpanIndex spans = view.index().spans(lane);
        if (spans == null || spans.size() == 0) {
            return;
        }
        TimeScale scale = view.scaleProperty().get();
        int first = preview == Preview.NONE ? spans.firstReaching((long) scale.startUs() - 1) : 0;
        double endUs = scale.endUs();
        boolean editable = view.index().isEditable(lane);
        if (view.index().lane(lane) instanceof Lane.Spans of && of.idleHatched()) {
            hatch(gc, spans, first, y, scale, left, right);
        }
        blocks(gc, spans, first, endUs, y, preview, editable, scale, left, right);
        words(gc, spans, lane, first, endUs, y, preview, editable, scale, left, right);
    }

    private void hatch(
            GraphicsContext gc, SpanIndex spans, int first, double y, TimeScale scale, double left, double right) {
        Color colour = view.colours().idle.getValue();
        double height = view.index().layout().rowHeight() * spans.rowCount();
        long reached = first > 0 ? spans.span(first - 1).endUs() : spans.span(0).startUs();
        for (int i = first; i < spans.size(); i++) {
            Lane.Span span = spans.span(i);
            double from = Math.max(left, left + scale.x(reached));
            double to = Math.min(right, left + scale.x(span.startUs()));
            if (to - from >= NARROWEST_HATCH) {
                idle.fill(gc, colour, Math.rint(from), y, Math.rint(to) - Math.rint(from), height);
            }
            reached = Math.max(reached, span.endUs());
            if (span.startUs() > scale.endUs()) {
                break;
            }
        }
    }

    private void blocks(
            GraphicsContext gc,
            SpanIndex spans,
            int first,
            double endUs,
            double y,
            Preview preview,
            boolean editable,
            TimeScale scale,
            double left,
            double right) {
        double rowHeight = view.index().layout().rowHeight();
        Set<Object> selected = view.selectionProperty().get();
        Color filled = null;
        double reached0 = -1;
        double reached1 = -1;
        double reached2 = -1;
        double reached3 = -1;
        for (int i = first; i < spans.size(); i++) {
            Lane.Span span = spans.span(i);
            long startUs = preview.place(span.key(), editable, span.startUs());
            if (startUs > endUs && preview == Preview.NONE) {
                break;
            }
            long stopUs = preview.place(span.key(), editable, span.endUs());
            double from = Math.max(left - 4, Math.floor(left + scale.x(startUs)));
            double to = Math.min(right + 4, Math.floor(left + scale.x(stopUs)));
            int row = spans.row(i);
            double reached = row == 0 ? reached0 : row == 1 ? reached1 : row == 2 ? reached2 : reached3;
            double shown = Math.max(to, from + 1);
            if (to < left || from > right || shown <= reached) {
                continue;
            }
            switch (row) {
                case 0 -> reached0 = shown;
                case 1 -> reached1 = shown;
                case 2 -> reached2 = shown;
                default -> reached3 = shown;
            }
            // a slit between neighbours, where there is room for it
            double slit = shown - from >= 6 ? 1 : 0;
            Color fill = span.tint().fill();
            if (!fill.equals(filled)) {
                gc.setFill(fill);
                filled = fill;
            }
            double top = y + row * rowHeight;
            gc.fillRect(from, top, shown - from - slit, rowHeight - 1);
            if (shown - from >= 4) {
                boolean chosen = !selected.isEmpty() && selected.contains(span.key());
                if (chosen || span.open() || span.doubtful()) {
                    edge(gc, span, chosen, from, top, shown - from - slit, rowHeight - 1);
                }
            } else if (!selected.isEmpty() && selected.contains(span.key())) {
                gc.setFill(view.colours().accent.getValue());
                gc.fillRect(from, top, Math.max(2, shown - from), rowHeight - 1);
                filled = null;
            }
        }
    }

    private void edge(
            GraphicsContext gc, Lane.Span span, boolean chosen, double x, double y, double width, double height) {
        if (span.doubtful()) {
            gc.setStroke(span.tint().ink());
            gc.setLineWidth(1.5);
            gc.setLineDashes(DASHES);
            gc.strokeRect(x + 1.5, y + 1.5, Math.max(1, width - 3), height - 3);
            gc.setLineDashes();
        }
        if (span.open()) {
            gc.setStroke(span.tint().ink());
            gc.setLineWidth(2);
            gc.setLineDashes(DASHES);
            gc.strokeLine(x + width - 2, y + 1, x + width - 2, y + height - 1);
            gc.setLineDashes();
        }
        if (chosen) {
            gc.setLineWidth(1);
            gc.setStroke(view.colours().back.getValue());
            gc.strokeRect(x + 2.5, y + 2.5, Math.max(1, width - 5), height - 5);
            gc.setLineWidth(2);
            gc.setStroke(view.colours().text.getValue());
            gc.strokeRect(x + 1, y + 1, Math.max(1, width - 2), height - 2);
        }
    }

    private void words(
            GraphicsContext gc,
            SpanIndex spans,
            int lane,
            int first,
            double endUs,
            double top,
            Preview preview,
            boolean editable,
            TimeScale scale,
            double left,
            double right) {
        double rowHeight = view.index().layout().rowHeight();
        boolean beside = view.index().lane(lane) instanceof Lane.Spans of && !of.idleHatched();
        for (int i = first; i < spans.size(); i++) {
            Lane.Span span = spans.span(i);
            if (span.startUs() > endUs && preview == Preview.NONE) {
                break;
            }
            boolean narrow = (span.endUs() - span.startUs()) / scale.usPerPixel() < NARROWEST_LABEL;
            if (narrow && preview == Preview.NONE && !beside) {
                continue;
            }
            double from = Math.max(left, left + scale.x(preview.place(span.key(), editable, span.startUs())));
            double to = Math.min(right, left + scale.x(preview.place(span.key(), editable, span.endUs())));
            double y = top + spans.row(i) * rowHeight + (rowHeight - 1) / 2;
            String label = narrow ? "" : labels.choose(span.name(), span.shortName(), to - from);
            if (!label.isEmpty()) {
                gc.setFill(span.tint().ink());
                gc.fillText(label, Math.rint((from + to - labels.width(label)) / 2), y);
            } else if (beside && preview == Preview.NONE && to >= left) {
                double next = spans.rowCount() > 1
                        ? to
                        : i + 1 < spans.size()
                                ? left + scale.x(spans.span(i + 1).startUs())
                                : right;
                label = labels.choose(span.name(), span.shortName(), Math.min(next, right) - to);
                if (!label.isEmpty()) {
                    gc.setFill(view.colours().text.getValue());
                    gc.fillText(label, Math.rint(to + LabelFit.MARGIN), y);
                }
            }
        }
    }
}
