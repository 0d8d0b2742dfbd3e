package org.sideport.chart;

import java.util.List;
import java.util.stream.DoubleStream;

/**
 * An axis with a fixed range.
 *
 * @param label what it counts, without its unit
 * @param unit empty for none
 * @param low where it begins; above 0 on a logarithmic one
 * @param high where it ends, above {@code low}
 * @param ticks within the range, ascending
 */
public record Axis(String label, String unit, double low, double high, Scale scale, List<Tick> ticks) {

    /** How values become lengths. */
    public enum Scale {
        LINEAR,
        LOG
    }

    /** A place with a name. */
    public record Tick(double at, String text) {}

    public Axis {
        if (!(low < high) || !Double.isFinite(high - low)) {
            throw new IllegalArgumentException("an axis from " + low + " to " + high);
        }
        if (scale == Scale.LOG && !(low > 0)) {
            throw new IllegalArgumentException("a logarithmic axis from " + low);
        }
        ticks = List.copyOf(ticks);
    }

    /** An axis with round ticks. */
    public static Axis of(String label, String unit, double low, double high, Scale scale) {
        return new Axis(label, unit, low, high, scale, Ticks.of(low, high, scale));
    }

    /**
     * An axis with round ticks and some room around these values. Values that are not finite, or not above 0 on a
     * logarithmic axis, do not count.
     */
    public static Axis around(String label, String unit, Scale scale, double... values) {
        boolean log = scale == Scale.LOG;
        double[] used = DoubleStream.of(values)
                .filter(v -> Double.isFinite(v) && (!log || v > 0))
                .map(v -> log ? Math.log(v) : v)
                .toArray();
        double low = DoubleStream.of(used).min().orElse(0);
        double high = DoubleStream.of(used).max().orElse(1);
        double room = high > low ? 0.06 * (high - low) : log ? 0.5 : Math.max(0.5, 0.06 * Math.abs(high));
        return of(
                label, unit, log ? Math.exp(low - room) : low - room, log ? Math.exp(high + room) : high + room, scale);
    }

    /** "time (s)". */
    public String title() {
        return unit.isEmpty() ? label : label + " (" + unit + ")";
    }

    /** Where a value lies: 0 at the low end, 1 at the high one; outside of that beyond the ends. */
    public double share(double value) {
        return scale == Scale.LOG ? Math.log(value / low) / Math.log(high / low) : (value - low) / (high - low);
    }
}
