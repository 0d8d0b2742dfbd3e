package org.sideport.stats.monitoring;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A chart of failures case by case. Its statistic starts at 0; whether a point is at a limit is decided with
 * {@link BinaryDesign#TOLERANCE}.
 *
 * @param design with the parameters, fixed before looking
 * @param restart what happened after a signal
 * @param riskAdjusted whether each case's own risk was used
 * @param points one a case charted, in order; fewer than the cases where the chart stopped
 * @param warnings sentences, empty if there is nothing to warn of
 */
public record BinaryChart(
        BinaryDesign design, Restart restart, boolean riskAdjusted, List<ChartPoint> points, List<String> warnings) {

    public BinaryChart {
        points = List.copyOf(points);
        warnings = List.copyOf(warnings);
    }

    /** The points that signal, in order. */
    public List<ChartPoint> signals() {
        return points.stream().filter(point -> point.signal() != null).toList();
    }

    /** The first signal of this kind, {@code null} if there is none. */
    public @Nullable ChartPoint first(SignalKind kind) {
        return points.stream()
                .filter(point -> point.signal() == kind)
                .findFirst()
                .orElse(null);
    }

    /** The statistic after the last case charted. */
    public double last() {
        return points.get(points.size() - 1).statistic();
    }
}
