package org.sideport.app.timeline;

import javafx.scene.canvas.GraphicsContext;

/** Draws a curve column by column, each from the least to the greatest value that falls into it. */
final class CurvePainter {

    private CurvePainter() {}

    static void paint(
            GraphicsContext gc,
            TimelineColours colours,
            Lane.Curve curve,
            TimeScale scale,
            double left,
            double right,
            double y,
            double height) {
        gc.setFill(colours.curve.getValue());
        MinMaxPyramid values = curve.values();
        double perPixel = scale.usPerPixel() / curve.stepUs();
        double first = (scale.startUs() - curve.startUs()) / curve.stepUs();
        double span = height - 2;
        double perValue = span / (curve.high() - curve.low());
        double before = Double.NaN;
        int columns = (int) (right - left);
        for (int column = 0; column < columns; column++) {
            double from = first + column * perPixel;
            double least;
            double greatest;
            if (perPixel >= 1) {
                int a = (int) Math.floor(from);
                int b = Math.max(a + 1, (int) Math.floor(from + perPixel));
                least = values.min(a, b);
                greatest = values.max(a, b);
            } else {
                least = between(values, from);
                greatest = least;
            }
            if (Double.isNaN(least)) {
                before = Double.NaN;
                continue;
            }
            double top = place(greatest, curve, perValue, span);
            double bottom = place(least, curve, perValue, span);
            double middle = (top + bottom) / 2;
            if (!Double.isNaN(before)) {
                // no hole between this column and the one before
                top = Math.min(top, before);
                bottom = Math.max(bottom, before);
            }
            before = middle;
            double upper = Math.floor(top);
            gc.fillRect(left + column, y + 1 + upper, 1, Math.max(1, Math.floor(bottom) - upper + 1));
        }
    }

    private static double place(double value, Lane.Curve curve, double perValue, double span) {
        return Math.max(0, Math.min(span - 1, span - 1 - (value - curve.low()) * perValue));
    }

    private static double between(MinMaxPyramid values, double at) {
        int i = (int) Math.floor(at);
        if (i < 0 || i >= values.size()) {
            return Double.NaN;
        }
        double value = values.value(i);
        double next = i + 1 < values.size() ? values.value(i + 1) : value;
        return Double.isNaN(next) ? value : value + (next - value) * (at - i);
    }
}
