package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * The chart of single values and of their moving ranges of two: limits at mean ± 3 SD, and at 3.267 d2 SD for the ranges
 * (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2). Nothing is reset after a signal, but the run rules begin anew.
 */
public final class IndividualsChart {

    /** Upper limit of the range of two as a multiple of the mean range. */
    public static final double D4 = 3.267;

    private IndividualsChart() {}

    /** @param rules those in force; an empty set means the 3 SD limits alone */
    public static ValueChart of(ValueSeries series, Baseline baseline, Set<RunRule> rules) {
        Set<RunRule> force = rules.isEmpty() ? Set.of(RunRule.BEYOND_3_SD) : rules;
        double lower = baseline.mean() - 3 * baseline.sd();
        double upper = baseline.mean() + 3 * baseline.sd();
        double rangeLimit = D4 * Baseline.D2 * baseline.sd();
        List<ChartPoint> points = new ArrayList<>();
        List<ChartPoint> ranges = new ArrayList<>();
        RunState state = RunState.START;
        for (int i = 0; i < series.size(); i++) {
            double value = series.values().get(i);
            long number = series.first() + i;
            RunState.Step step = state.add(zone((value - baseline.mean()) / baseline.sd()), force);
            SignalKind signal = step.rule().isEmpty() ? null : step.high() ? SignalKind.HIGH : SignalKind.LOW;
            points.add(new ChartPoint(
                    number,
                    value,
                    value,
                    lower,
                    upper,
                    signal,
                    step.rule().map(RunRule::words).orElse("")));
            state = signal == null ? step.next() : RunState.START;
            if (i > 0) {
                double range = Math.abs(value - series.values().get(i - 1));
                boolean wide = range > rangeLimit;
                ranges.add(new ChartPoint(
                        number,
                        value,
                        range,
                        0.0,
                        rangeLimit,
                        wide ? SignalKind.HIGH : null,
                        wide ? "the step from the case before" : ""));
            }
        }
        List<String> warnings = new ArrayList<>(series.warnings());
        warnings.addAll(baseline.warnings());
        return new ValueChart("individuals and moving ranges, 3 SD", baseline, points, ranges, warnings);
    }

    /** A point exactly on a limit lies within it. */
    private static int zone(double z) {
        int depth = (int) Math.min(3, Math.max(0, Math.ceil(Math.abs(z)) - 1));
        return z >= 0 ? depth : -depth - 1;
    }
}
