package org.sideport.app.timeline;

import java.util.LinkedHashMap;
import java.util.Map;
import javafx.geometry.VPos;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;
import javafx.scene.text.Font;
import javafx.scene.text.Text;
import org.jspecify.annotations.Nullable;

/** Draws ruler and lanes. */
final class TimelinePainter {

    private static final double TICK = 88;
    private static final double NARROWEST_FRAME = 6;
    private static final double[] DASHES = {2, 4};
    private static final int MOST_TICKS = 512;

    /** Length of a dash and of the gap after it, pixels. */
    private static final double BORDER_DASH = 4;

    private final TimelineView view;
    private final LabelFit labels = new LabelFit(this::measure);
    private final SpanPainter spans;
    private final PointPainter points;
    private final Filmstrip filmstrip;
    private final Hatch gapHatch = new Hatch(4);
    private final Hatch doubtHatch = new Hatch(8);
    private @Nullable Font font;

    private final Map<Long, String> tickTexts = new LinkedHashMap<>(64, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Long, String> eldest) {
            return size() > MOST_TICKS;
        }
    };
    private long tickStep;

    TimelinePainter(TimelineView view, Runnable redraw) {
        this.view = view;
        spans = new SpanPainter(view, labels);
        points = new PointPainter(view, labels);
        filmstrip = new Filmstrip(redraw);
    }

    private double measure(String text) {
        Text node = new Text(text);
        node.setFont(view.colours().font.getValue());
        return Math.ceil(node.getLayoutBounds().getWidth());
    }

    void modelChanged() {
        tickTexts.clear();
    }

    void coloursChanged() {
        if (!view.colours().font.getValue().equals(font)) {
            font = view.colours().font.getValue();
            labels.forget();
        }
    }

    void paint(GraphicsContext gc, double width, double height, Preview preview, double scrolled) {
        TimelineColours colours = view.colours();
        TimelineIndex index = view.index();
        TimeScale scale = view.scaleProperty().get();
        double left = view.headerWidth();
        gc.setFont(colours.font.getValue());
        gc.setTextBaseline(VPos.CENTER);
        gc.setFill(colours.back.getValue());
        gc.fillRect(0, 0, width, height);
        LaneLayout layout = index.layout();
        for (int lane = 0; lane < layout.size(); lane++) {
            double y = TimelineSkin.RULER + layout.top(lane) - scrolled;
            if (y + layout.height(lane) > TimelineSkin.RULER && y < height) {
                lane(gc, lane, y, preview, scale, left, width);
            }
        }
        BoundaryPainter.paint(gc, view, preview, scrolled, left, width, height);
        if (scale.durationUs() > 0) {
            overlays(gc, index.model(), scale, left, width, height);
        }
        // what has been drawn too far is covered
        gc.setFill(colours.back.getValue());
        gc.fillRect(0, 0, width, TimelineSkin.RULER - 1);
        if (scale.durationUs() > 0) {
            ruler(gc, scale, left, width);
        }
        gc.setFill(colours.back.getValue());
        gc.fillRect(0, 0, left, height);
        names(gc, layout, left, height, scrolled);
    }

    private void lane(
            GraphicsContext gc, int lane, double y, Preview preview, TimeScale scale, double left, double width) {
        TimelineColours colours = view.colours();
        double height = view.index().layout().height(lane);
        gc.setFill(colours.ground.getValue());
        gc.fillRect(left, y, width - left, height);
        if (scale.durationUs() == 0) {
            return;
        }
        double right = Math.min(width, left + scale.x(scale.durationUs()));
        Lane of = view.index().lane(lane);
        if (of instanceof Lane.Spans row) {
            spans.paint(gc, lane, y, preview, left, right);
            if (lane == 0 && row.spans().isEmpty()) {
                gc.setFill(colours.muted.getValue());
                gc.fillText(
                        view.emptyNoteProperty().get(),
                        left + LabelFit.MARGIN,
                        y + height / 2,
                        width - left - 2 * LabelFit.MARGIN);
            }
        } else if (of instanceof Lane.Points) {
            points.paint(gc, lane, y, height, preview, left, width);
        } else if (of instanceof Lane.Curve curve) {
            CurvePainter.paint(gc, colours, curve, scale, left, right, y, height);
        } else if (of instanceof Lane.Pictures pictures) {
            filmstrip.paint(gc, pictures.provider(), scale, left, y, height);
        } else if (of instanceof Lane.Band band) {
            band(gc, band, view.index().bandRows(lane), scale, left, width, y);
        }
    }

    /** Each part as a thin bar from low to high, with a stroke in the middle and its name above. */
    private void band(
            GraphicsContext gc, Lane.Band band, int[] rows, TimeScale scale, double left, double right, double top) {
        double height = view.index().layout().rowHeight() * LaneLayout.BAND;
        double[] labelEnds = new double[2];
        for (int i = 0; i < rows.length; i++) {
            Lane.BandPart part = band.parts().get(i);
            double y = top + rows[i] * height;
            double counted = Math.max(left, Math.rint(left + scale.x(part.fromUs())));
            double from = Math.max(left, Math.rint(left + scale.x(part.lowUs())));
            double to = Math.min(right, Math.rint(left + scale.x(part.highUs())));
            if (from >= right || to < left) {
                continue;
            }
            // one case has no width, and is to be seen all the same
            to = Math.max(to, from + 3);
            gc.setFill(part.tint().fill());
            gc.fillRect(counted, y + height - 5, from - counted, 1);
            gc.fillRect(from, y + height - 6, to - from, 4);
            double middle = Math.rint(left + scale.x(part.middleUs()));
            if (middle >= left) {
                gc.fillRect(middle - 1, y + 2, 2, height - 4);
            }
            String label = labels.choose(part.name(), part.shortName(), to - from);
            if (!label.isEmpty() && from >= labelEnds[rows[i]]) {
                labelEnds[rows[i]] = from + LabelFit.MARGIN + labels.width(label);
                gc.setFill(view.colours().text.getValue());
                gc.fillText(label, from + LabelFit.MARGIN, y + (height - 6) / 2);
            }
        }
    }

    private void overlays(
            GraphicsContext gc, TimelineModel model, TimeScale scale, double left, double width, double height) {
        TimelineColours colours = view.colours();
        double y = TimelineSkin.RULER;
        stretches(gc, model.gaps(), gapHatch, colours.gap.getValue(), scale, left, width, height, false);
        stretches(gc, model.doubts(), doubtHatch, colours.doubt.getValue(), scale, left, width, height, true);
        gc.setFill(colours.border.getValue());
        for (long border : model.borders()) {
            double x = Math.rint(left + scale.x(border));
            if (x >= left && x <= width) {
                // broken, so that it is not taken for the playhead
                for (double from = y - 4; from < height; from += 2 * BORDER_DASH) {
                    gc.fillRect(x - 1, from, 1, BORDER_DASH);
                }
            }
        }
    }

    private static void stretches(
            GraphicsContext gc,
            java.util.List<Stretch> all,
            Hatch hatch,
            Color colour,
            TimeScale scale,
            double left,
            double width,
            double height,
            boolean dashed) {
        for (Stretch each : all) {
            double from = Math.max(left, Math.rint(left + scale.x(each.startUs())));
            double to = Math.min(width, Math.max(from + 2, Math.rint(left + scale.x(each.endUs()))));
            if (left + scale.x(each.endUs()) < left || from > width) {
                continue;
            }
            for (double y = TimelineSkin.RULER; y < height; y += 64) {
                hatch.fill(gc, colour, from, y, to - from, Math.min(64, height - y));
            }
            if (dashed) {
                gc.setStroke(colour);
                gc.setLineWidth(1);
                gc.setLineDashes(DASHES);
                gc.strokeRect(from + 0.5, TimelineSkin.RULER + 0.5, to - from - 1, height - TimelineSkin.RULER - 1);
                gc.setLineDashes();
            }
        }
    }

    private void ruler(GraphicsContext gc, TimeScale scale, double left, double width) {
        TimelineColours colours = view.colours();
        long step = scale.tickStepUs(TICK);
        if (step != tickStep) {
            tickStep = step;
            tickTexts.clear();
        }
        long last = Math.min(scale.durationUs(), (long) scale.endUs());
        gc.setFill(colours.line.getValue());
        for (long tick = scale.firstTickUs(step); tick <= last; tick += step) {
            gc.fillRect(Math.rint(left + scale.x(tick)), 2, 1, TimelineSkin.RULER - 3);
        }
        frames(gc, scale, left);
        gc.setFill(colours.accent.getValue());
        for (long candidate : view.model().candidates()) {
            gc.fillRect(Math.rint(left + scale.x(candidate)), TimelineSkin.RULER - 4, 1, 3);
        }
        for (long cut : view.model().cuts()) {
            gc.fillRect(Math.rint(left + scale.x(cut)) - 1, TimelineSkin.RULER - 5, 3, 4);
        }
        gc.setFill(colours.muted.getValue());
        for (long tick = scale.firstTickUs(step); tick <= last; tick += step) {
            double x = Math.rint(left + scale.x(tick)) + LabelFit.MARGIN;
            String text = tickTexts.get(tick);
            if (text == null) {
                text = Clock.text(tick, step);
                tickTexts.put(tick, text);
            }
            if (x + labels.width(text) < width) {
                gc.fillText(text, x, TimelineSkin.RULER / 2 - 1);
            }
        }
    }

    /** A short stroke where each frame starts, once they are far enough apart. */
    private void frames(GraphicsContext gc, TimeScale scale, double left) {
        FrameGrid grid = view.framesProperty().get();
        if (grid == null || grid.size() < 2) {
            return;
        }
        double usual = (double) scale.durationUs() / grid.size() / scale.usPerPixel();
        if (usual < NARROWEST_FRAME) {
            return;
        }
        for (int frame = grid.at((long) scale.startUs());
                frame < grid.size() && grid.start(frame) <= scale.endUs();
                frame++) {
            gc.fillRect(Math.rint(left + scale.x(grid.start(frame))), TimelineSkin.RULER - 5, 1, 4);
        }
    }

    private void names(GraphicsContext gc, LaneLayout layout, double left, double height, double scrolled) {
        TimelineColours colours = view.colours();
        for (int lane = 0; lane < layout.size(); lane++) {
            double middle = TimelineSkin.RULER + layout.top(lane) + Math.min(layout.height(lane), 40) / 2 - scrolled;
            if (middle < TimelineSkin.RULER || middle > height) {
                continue;
            }
            gc.setFill(colours.muted.getValue());
            gc.fillText(view.index().lane(lane).name(), 8, middle, left - 12);
        }
        if (view.isFocused()) {
            gc.setFill(colours.accent.getValue());
            gc.fillRect(0, 0, 2, height);
        }
    }
}
