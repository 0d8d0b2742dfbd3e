package org.sideport.stats.monitoring;

import org.jspecify.annotations.Nullable;

/**
 * One case on a chart.
 *
 * @param caseNumber as in the log
 * @param observed the case's value; 1 for a failure and 0 for a success
 * @param statistic what is charted, after this case
 * @param lower limit at this case, {@code null} where the chart has none
 * @param upper limit at this case, {@code null} where the chart has none
 * @param signal {@code null} where the case gives none
 * @param note the part of the chart or the rule that spoke; empty if there is nothing to say
 */
public record ChartPoint(
        long caseNumber,
        double observed,
        double statistic,
        @Nullable Double lower,
        @Nullable Double upper,
        @Nullable SignalKind signal,
        String note) {}
