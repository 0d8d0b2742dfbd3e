package org.sideport.cli.stats;

import java.util.List;
import org.sideport.stats.monitoring.BinaryChart;
import org.sideport.stats.monitoring.BinaryDesign;
import org.sideport.stats.monitoring.BinarySeries;
import org.sideport.stats.monitoring.ChartPoint;
import org.sideport.stats.monitoring.LearningCurveDesign;
import org.sideport.stats.monitoring.SignalKind;
import org.sideport.stats.monitoring.SprtDesign;
import org.sideport.stats.monitoring.SprtVerdict;

/** What a chart of failures says, in one sentence. */
final class MonitoringSentence {

    private MonitoringSentence() {}

    /** @param wrong probability of a wrong upper signal within the cases charted */
    static String of(BinaryDesign design, BinarySeries series, BinaryChart chart, double wrong) {
        String chance = " (the chart would say so wrongly within " + MonitoringWords.cases(series.size())
                + " with a probability of " + Figures.percent(wrong) + ").";
        if (design instanceof SprtDesign sprt) {
            return sequential(sprt, series, chart.riskAdjusted());
        }
        if (design instanceof LearningCurveDesign learning) {
            return learning(learning, series, chart, chance);
        }
        List<ChartPoint> signals = chart.signals();
        boolean alarm = design.upperSignal() == SignalKind.ALARM;
        if (signals.isEmpty()) {
            return "No " + (alarm ? "alarm" : "sign of improvement") + " in " + MonitoringWords.cases(series.size())
                    + ": the failures are in keeping with " + expectation(design, chart) + ", which is no proof of it.";
        }
        return (alarm ? "The chart alarms" : "The chart shows an improvement") + " first at case "
                + signals.get(0).caseNumber() + ": there were " + (alarm ? "more" : "fewer") + " failures than "
                + expectation(design, chart) + " explains well" + chance
                + (alarm ? " An alarm is a reason to look at the cases, not a judgement." : "");
    }

    private static String expectation(BinaryDesign design, BinaryChart chart) {
        return chart.riskAdjusted() ? "the cases' risks" : "a rate of " + Figures.plain(design.acceptableRate());
    }

    private static String sequential(SprtDesign design, BinarySeries series, boolean riskAdjusted) {
        SprtVerdict verdict = SprtVerdict.of(design, series);
        String odds = "odds of failure " + Figures.plain(design.oddsRatio()) + " times as high";
        String good = riskAdjusted ? "failures as the risks say" : "the acceptable rate " + Figures.plain(design.p0());
        String bad = riskAdjusted ? odds : "the unacceptable rate " + Figures.plain(design.p1());
        if (verdict.decision() == null) {
            return "After " + MonitoringWords.cases(series.size()) + " the test has not decided between " + good
                    + " and " + bad + ": go on.";
        }
        boolean accepted = verdict.decision() == SignalKind.ACCEPTED;
        return "The test " + (accepted ? "accepts " + good : "alarms for " + bad) + " at case " + verdict.decidedAt()
                + "; other rates or errors, or the stricter convention of two boundary lines, can give another verdict on the"
                + " same cases.";
    }

    private static String learning(LearningCurveDesign design, BinarySeries series, BinaryChart chart, String chance) {
        ChartPoint shown = chart.first(SignalKind.ACCEPTED);
        if (shown == null) {
            return "A failure rate of " + Figures.plain(design.pa()) + " rather than " + Figures.plain(design.pi())
                    + " is not shown yet after " + MonitoringWords.cases(series.size())
                    + ", which is no proof of the opposite.";
        }
        ChartPoint alarm = chart.first(SignalKind.ALARM);
        return "A failure rate of " + Figures.plain(design.pa()) + " rather than " + Figures.plain(design.pi())
                + " is shown at case " + shown.caseNumber() + chance
                + (alarm == null
                        ? ""
                        : " The chart that watches over it afterwards alarms at case " + alarm.caseNumber() + ".");
    }
}
