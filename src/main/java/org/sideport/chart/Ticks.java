package org.sideport.chart;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;

/** Round numbers along an axis: 1, 2 or 5 times a power of ten. */
final class Ticks {

    private static final int MOST = 8;
    private static final int FEWEST = 3;
    private static final double[] ROUND = {1, 2, 5};

    private Ticks() {}

    static List<Axis.Tick> of(double low, double high, Axis.Scale scale) {
        if (scale == Axis.Scale.LOG) {
            List<Axis.Tick> ticks = log(low, high);
            if (ticks.size() >= FEWEST) {
                return ticks;
            }
        }
        return linear(low, high);
    }

    private static List<Axis.Tick> linear(double low, double high) {
        double step = step(high - low);
        List<Axis.Tick> ticks = new ArrayList<>();
        for (long i = (long) Math.ceil(low / step - 1e-9); i * step <= high + 1e-9 * step; i++) {
            add(ticks, i * step, low, high);
        }
        return ticks;
    }

    /** The least round step that needs no more than {@link #MOST} ticks. */
    private static double step(double range) {
        for (double ten = Math.pow(10, Math.floor(Math.log10(range / MOST))); ; ten *= 10) {
            for (double round : ROUND) {
                if (range / (round * ten) <= MOST) {
                    return round * ten;
                }
            }
        }
    }

    private static List<Axis.Tick> log(double low, double high) {
        int first = (int) Math.floor(Math.log10(low));
        int last = (int) Math.ceil(Math.log10(high));
        boolean tensOnly = last - first > 4;
        List<Axis.Tick> ticks = new ArrayList<>();
        for (int power = first; power <= last; power++) {
            for (double round : ROUND) {
                if (round == 1 || !tensOnly) {
                    add(ticks, round * Math.pow(10, power), low, high);
                }
            }
        }
        return ticks;
    }

    private static void add(List<Axis.Tick> ticks, double at, double low, double high) {
        double rounded = new BigDecimal(at).round(new MathContext(12)).doubleValue();
        if (rounded >= low && rounded <= high) {
            ticks.add(new Axis.Tick(
                    rounded,
                    new BigDecimal(Double.toString(rounded))
                            .stripTrailingZeros()
                            .toPlainString()));
        }
    }
}
