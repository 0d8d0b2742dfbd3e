package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.List;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Outcome;
import org.sideport.stats.monitoring.BinarySeries;
import org.sideport.stats.monitoring.ChartPoint;
import org.sideport.stats.monitoring.ObservedExpected;

/** Observed less expected failures, for machines and for people. */
final class ExpectedReport {

    private ExpectedReport() {}

    static Outcome<Answer> of(BinarySeries series, double rate, double level, boolean points) {
        return ObservedExpected.of(series, rate, level).map(found -> {
            List<Object> json = new ArrayList<>();
            TextTable table = new TextTable(">case", ">failure", ">O − E", ">lower", ">upper");
            List<ChartPoint> all = found.points();
            for (ChartPoint point : all) {
                json.add(Json.object(
                        "case",
                        point.caseNumber(),
                        "failure",
                        point.observed() == 1,
                        "statistic",
                        point.statistic(),
                        "lower",
                        point.lower(),
                        "upper",
                        point.upper()));
                if (points || point == all.get(all.size() - 1)) {
                    table.row(
                            Long.toString(point.caseNumber()),
                            point.observed() == 1 ? "1" : "0",
                            Figures.plain(point.statistic()),
                            Figures.plain(point.lower()),
                            Figures.plain(point.upper()));
                }
            }
            List<String> lines = new ArrayList<>();
            lines.add("Chart: observed less expected failures, "
                    + (series.isRiskAdjusted() ? "each case with its own risk" : "rate " + Figures.plain(rate)));
            lines.addAll(Answer.lines(table));
            String limits = Figures.limits(found.limits());
            List<String> warnings = new ArrayList<>(found.warnings());
            if (series.isRiskAdjusted()) {
                warnings.add(MonitoringWords.OWN_GRADE);
            }
            return new Answer(
                    Json.object(
                            "chart",
                            "oe",
                            "risk_adjusted",
                            series.isRiskAdjusted(),
                            "rate",
                            series.isRiskAdjusted() ? null : (Double) rate,
                            "n",
                            series.size(),
                            "observed",
                            found.observed(),
                            "expected",
                            found.expected(),
                            "observed_less_expected",
                            -found.saved(),
                            "lower",
                            found.limits().lower(),
                            "upper",
                            found.limits().upper(),
                            "level",
                            level,
                            "excess_probability",
                            found.excessProbability(),
                            "points",
                            json),
                    lines,
                    warnings,
                    MonitoringWords.failures(found.observed()) + " in " + MonitoringWords.cases(series.size())
                            + " where "
                            + Figures.plain(found.expected(), 2)
                            + " were to be expected; if the expectation is right, as"
                            + " many or more happen with probability " + Figures.plain(found.excessProbability())
                            + " (O − E " + limits
                            + " by chance, for this one case looked at alone). The line is a display"
                            + " and no test: crossings are no signals. " + MonitoringWords.CAUTION);
        });
    }
}
