package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Charts a series of failures with a design. Linear in the number of cases. */
public final class BinaryCusum {

    private BinaryCusum() {}

    /**
     * Uses the risks of the series where it has them and the design can; otherwise {@link BinaryDesign#acceptableRate()}
     * for every case.
     */
    public static BinaryChart chart(BinaryDesign design, BinarySeries series, Restart restart) {
        List<String> warnings = new ArrayList<>(series.warnings());
        if (series.isRiskAdjusted() && !design.adjustsRisk()) {
            warnings.add("this chart knows no risk of the single case; the risks of the log were not used");
        }
        if (design instanceof TabularDesign tabular && !tabular.isCentred()) {
            warnings.add("k " + tabular.k() + " does not lie between the acceptable rate " + tabular.p0()
                    + " and the unacceptable rate " + tabular.p1());
        }
        List<ChartPoint> points = new ArrayList<>();
        run(design, series, restart, 0, "", points);
        return new BinaryChart(design, restart, adjusted(design, series), points, warnings);
    }

    /**
     * The learning-curve CUSUM until it shows competence, and from the next case on an ordinary CUSUM from 0 that watches
     * whether it lasts (Biau & Porcher 2010, section 2).
     *
     * @param restart of the ordinary CUSUM
     */
    public static BinaryChart chartAndWatch(
            LearningCurveDesign learning, LlrDesign watch, BinarySeries series, Restart restart) {
        List<ChartPoint> points = new ArrayList<>();
        run(learning, series, Restart.STOP, 0, "learning", points);
        if (points.get(points.size() - 1).signal() != null) {
            run(watch, series, restart, points.size(), "watching", points);
        }
        return new BinaryChart(learning, restart, false, points, series.warnings());
    }

    static boolean adjusted(BinaryDesign design, BinarySeries series) {
        return design.adjustsRisk() && series.isRiskAdjusted();
    }

    private static void run(
            BinaryDesign design, BinarySeries series, Restart restart, int from, String note, List<ChartPoint> points) {
        boolean adjusted = adjusted(design, series);
        Double floor = design.lowerLimit();
        double upper = design.upperLimit();
        double statistic = 0;
        for (int i = from; i < series.size(); i++) {
            double risk = adjusted ? series.risks().get(i) : design.acceptableRate();
            boolean failure = series.failures().get(i);
            statistic += design.weight(failure, risk);
            if (floor == null) {
                statistic = Math.max(0, statistic);
            }
            SignalKind signal = signal(design, statistic);
            points.add(new ChartPoint(series.first() + i, failure ? 1 : 0, statistic, floor, upper, signal, note));
            if (signal != null && restart == Restart.STOP) {
                return;
            }
            if (signal != null && restart == Restart.RESTART) {
                statistic = 0;
            }
        }
    }

    private static @Nullable SignalKind signal(BinaryDesign design, double statistic) {
        if (statistic >= design.upperLimit() - BinaryDesign.TOLERANCE) {
            return design.upperSignal();
        }
        Double floor = design.lowerLimit();
        return floor != null && statistic <= floor + BinaryDesign.TOLERANCE ? SignalKind.ACCEPTED : null;
    }
}
