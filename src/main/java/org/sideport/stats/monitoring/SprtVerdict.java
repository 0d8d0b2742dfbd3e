package org.sideport.stats.monitoring;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * When a sequential test's line shows competence, by both conventions found in papers, which differ by far: (a) the line
 * first reaches −h0; (b) it falls through two boundary lines that follow each other, the lines being drawn at every whole
 * multiple of −h0 below and of h1 above the start, without rising back through one of them in between. The line is drawn
 * on without a restart for both.
 *
 * @param acceptedAt case number by convention (a), {@code null} if never
 * @param acceptedStatistic the line there
 * @param twoLinesAt case number by convention (b), {@code null} if never
 * @param twoLinesStatistic the line there
 * @param alarmAt case number at which the line first reaches h1, {@code null} if never
 * @param decision which limit is reached first, the verdict of the test proper; {@code null} if it is undecided
 * @param decidedAt case number, {@code null} if it is undecided
 */
public record SprtVerdict(
        @Nullable Long acceptedAt,
        @Nullable Double acceptedStatistic,
        @Nullable Long twoLinesAt,
        @Nullable Double twoLinesStatistic,
        @Nullable Long alarmAt,
        @Nullable SignalKind decision,
        @Nullable Long decidedAt) {

    /** Reads the line of a whole series. */
    public static SprtVerdict of(SprtDesign design, BinarySeries series) {
        List<ChartPoint> points =
                BinaryCusum.chart(design, series, Restart.CONTINUE).points();
        ChartPoint accepted = null;
        ChartPoint alarm = null;
        ChartPoint twoLines = null;
        int zone = 0;
        int fallen = 0;
        for (ChartPoint point : points) {
            if (accepted == null && point.signal() == SignalKind.ACCEPTED) {
                accepted = point;
            }
            if (alarm == null && point.signal() == SignalKind.ALARM) {
                alarm = point;
            }
            int now = zone(design, point.statistic(), zone);
            fallen = now < zone ? fallen + zone - now : now > zone ? 0 : fallen;
            zone = now;
            if (twoLines == null && fallen >= 2) {
                twoLines = point;
            }
        }
        boolean alarmFirst = alarm != null && (accepted == null || alarm.caseNumber() < accepted.caseNumber());
        ChartPoint decided = alarmFirst ? alarm : accepted;
        return new SprtVerdict(
                number(accepted),
                accepted == null ? null : (Double) accepted.statistic(),
                number(twoLines),
                twoLines == null ? null : (Double) twoLines.statistic(),
                number(alarm),
                decided == null ? null : decided.signal(),
                number(decided));
    }

    /** How many lines the point lies above (positive) or below (negative) the start; a line reached counts as passed. */
    private static int zone(SprtDesign design, double statistic, int before) {
        int up = (int) Math.floor(statistic / design.h1() + BinaryDesign.TOLERANCE);
        int down = (int) Math.floor(-statistic / design.h0() + BinaryDesign.TOLERANCE);
        int zone = statistic >= 0 ? up : -down;
        // A point exactly on a line when falling has reached it from above.
        boolean onLine = statistic > 0 && Math.abs(statistic - up * design.h1()) < BinaryDesign.TOLERANCE;
        return onLine && before >= up ? up - 1 : zone;
    }

    private static @Nullable Long number(@Nullable ChartPoint point) {
        return point == null ? null : (Long) point.caseNumber();
    }
}
