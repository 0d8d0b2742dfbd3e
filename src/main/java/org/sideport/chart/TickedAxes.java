package org.sideport.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import org.jfree.chart.axis.AxisState;
import org.jfree.chart.axis.LogAxis;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTick;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.TextAnchor;

/**
 * The library's axes with our range and our ticks. Numbers that would run into one another are left out; names are turned
 * upright then, since no other tells what a left out one was.
 */
final class TickedAxes {

    private TickedAxes() {}

    static ValueAxis of(Axis axis) {
        ValueAxis made = axis.scale() == Axis.Scale.LOG ? new Logarithmic(axis) : new Linear(axis);
        made.setAutoRange(false);
        made.setRange(axis.low(), axis.high());
        return made;
    }

    private static boolean isName(Axis.Tick tick) {
        return !tick.text().isEmpty() && Character.isLetter(tick.text().codePointAt(0));
    }

    /** Whether names are among what had no room. */
    private static boolean lacksNames(Axis axis, List<NumberTick> beside) {
        return axis.ticks().stream().allMatch(TickedAxes::isName)
                && beside.stream().anyMatch(tick -> tick.getText().isEmpty());
    }

    private static List<NumberTick> upright(Axis axis) {
        return axis.ticks().stream()
                .map(tick -> new NumberTick(
                        tick.at(),
                        ChartRenderer.printable(tick.text()),
                        TextAnchor.CENTER_RIGHT,
                        TextAnchor.CENTER_RIGHT,
                        -Math.PI / 2))
                .toList();
    }

    private static List<NumberTick> ticks(
            Axis axis, ValueAxis made, Graphics2D on, Rectangle2D area, RectangleEdge edge) {
        boolean along = RectangleEdge.isTopOrBottom(edge);
        double height = on.getFontMetrics(made.getTickLabelFont()).getHeight();
        double length = along ? area.getWidth() : area.getHeight();
        List<NumberTick> ticks = new java.util.ArrayList<>();
        double end = Double.NEGATIVE_INFINITY;
        for (Axis.Tick tick : axis.ticks()) {
            double half =
                    (along ? on.getFontMetrics(made.getTickLabelFont()).stringWidth(tick.text()) + height / 2 : height)
                            / 2;
            double at = axis.share(tick.at()) * length;
            // while the room is still being measured there is no length, and all words count
            boolean free = !(length > 0) || at - half >= end;
            if (free) {
                end = at + half;
            }
            ticks.add(new NumberTick(
                    tick.at(),
                    free ? ChartRenderer.printable(tick.text()) : "",
                    along ? TextAnchor.TOP_CENTER : TextAnchor.CENTER_RIGHT,
                    TextAnchor.CENTER,
                    0));
        }
        return ticks;
    }

    private static final class Linear extends NumberAxis {
        private static final long serialVersionUID = 1;
        private final transient Axis axis;
        private boolean upright;

        Linear(Axis axis) {
            this.axis = axis;
        }

        /** Asked for when room is made for the words. */
        @Override
        public boolean isVerticalTickLabels() {
            return upright;
        }

        @Override
        @SuppressWarnings("rawtypes")
        public List refreshTicks(Graphics2D on, AxisState state, Rectangle2D area, RectangleEdge edge) {
            List<NumberTick> beside = ticks(axis, this, on, area, edge);
            upright = upright || RectangleEdge.isTopOrBottom(edge) && lacksNames(axis, beside);
            return upright ? upright(axis) : beside;
        }
    }

    private static final class Logarithmic extends LogAxis {
        private static final long serialVersionUID = 1;
        private final transient Axis axis;

        Logarithmic(Axis axis) {
            this.axis = axis;
            setSmallestValue(Math.min(1e-100, axis.low()));
        }

        @Override
        @SuppressWarnings("rawtypes")
        public List refreshTicks(Graphics2D on, AxisState state, Rectangle2D area, RectangleEdge edge) {
            return ticks(axis, this, on, area, edge);
        }
    }
}
