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

    /** Whether names beside one another would not all have room. */
    private static boolean crowded(Axis axis, ValueAxis made, Graphics2D on, Rectangle2D area, RectangleEdge edge) {
        List<Axis.Tick> all = axis.ticks();
        double length = area.getWidth();
        if (!RectangleEdge.isTopOrBottom(edge)
                || !(length > 0)
                || all.isEmpty()
                || !all.stream().allMatch(TickedAxes::isName)) {
            return false;
        }
        double gap = on.getFontMetrics(made.getTickLabelFont()).getHeight() / 2.0;
        for (int i = 1; i < all.size(); i++) {
            double half = (width(all.get(i - 1), made, on) + width(all.get(i), made, on)) / 2.0 + gap;
            if ((axis.share(all.get(i).at()) - axis.share(all.get(i - 1).at())) * length < half) {
                return true;
            }
        }
        return false;
    }

    private static int width(Axis.Tick tick, ValueAxis made, Graphics2D on) {
        return on.getFontMetrics(made.getTickLabelFont()).stringWidth(tick.text());
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
            upright = upright || crowded(axis, this, on, area, edge);
            return upright ? upright(axis) : ticks(axis, this, on, area, edge);
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
