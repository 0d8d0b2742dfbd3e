package org.sideport.stats.monitoring;

import java.util.List;

/**
 * A chart of measured values case by case. Values are supposed to be independent and nearly normal about the baseline's
 * mean; durations often fit only after taking logarithms.
 *
 * @param kind name of the chart with its parameters
 * @param points for a two-sided chart of two statistics (CUSUM) the upper one; see {@code otherPoints}
 * @param otherPoints the second statistic, case by case: the lower CUSUM, or the moving range (from the second case on);
 *     empty for charts with one
 * @param warnings sentences, empty if there is nothing to warn of
 */
public record ValueChart(
        String kind, Baseline baseline, List<ChartPoint> points, List<ChartPoint> otherPoints, List<String> warnings) {

    public ValueChart {
        points = List.copyOf(points);
        otherPoints = List.copyOf(otherPoints);
        warnings = List.copyOf(warnings);
    }

    /** Signals of either statistic, by case number. */
    public List<ChartPoint> signals() {
        return java.util.stream.Stream.concat(points.stream(), otherPoints.stream())
                .filter(point -> point.signal() != null)
                .sorted(java.util.Comparator.comparingLong(ChartPoint::caseNumber))
                .toList();
    }
}
