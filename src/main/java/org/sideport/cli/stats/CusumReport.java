package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.monitoring.BinaryChart;
import org.sideport.stats.monitoring.BinaryCusum;
import org.sideport.stats.monitoring.BinaryDesign;
import org.sideport.stats.monitoring.BinarySeries;
import org.sideport.stats.monitoring.ChartPoint;
import org.sideport.stats.monitoring.LearningCurveDesign;
import org.sideport.stats.monitoring.LlrDesign;
import org.sideport.stats.monitoring.Restart;
import org.sideport.stats.monitoring.RiskMix;
import org.sideport.stats.monitoring.SignalKind;
import org.sideport.stats.monitoring.SprtDesign;
import org.sideport.stats.monitoring.SprtVerdict;

/** A chart of failures, for machines and for people. */
final class CusumReport {

    private static final String NEVER = "never";

    private final BinarySeries series;
    private final BinaryDesign design;
    private final LimitOptions.@Nullable Settled settled;
    private final @Nullable RiskMix mix;
    private final @Nullable LlrDesign watching;
    private final boolean riskLeftOut;
    private final boolean allPoints;
    private final boolean learning;
    private final Restart restart;
    private final BinaryChart chart;
    private final RunLengthReport run;

    /**
     * @param settled how the limit was chosen; {@code null} for the sequential test
     * @param mix the cases' risks, {@code null} if none are used
     * @param wish what to do after a signal, {@code null} for the chart's default
     * @param watching the chart after the signal of a learning-curve CUSUM
     */
    CusumReport(
            BinarySeries series,
            BinaryDesign design,
            LimitOptions.@Nullable Settled settled,
            @Nullable RiskMix mix,
            @Nullable Restart wish,
            @Nullable LlrDesign watching,
            boolean riskLeftOut,
            boolean allPoints) {
        this.series = series;
        this.design = design;
        this.settled = settled;
        this.mix = mix;
        this.watching = watching;
        this.riskLeftOut = riskLeftOut;
        this.allPoints = allPoints;
        learning = design instanceof LearningCurveDesign;
        restart = wish != null
                ? wish
                : design instanceof SprtDesign
                        ? Restart.CONTINUE
                        : learning && watching == null ? Restart.STOP : Restart.RESTART;
        chart = watching == null
                ? BinaryCusum.chart(design, series, restart)
                : BinaryCusum.chartAndWatch((LearningCurveDesign) design, watching, series, restart);
        run = new RunLengthReport(design, new int[] {50, 100, series.size()});
        if (mix == null) {
            run.add(design, design.acceptableRate()).add(design, design.otherRate());
        } else {
            double odds = design instanceof LlrDesign llr ? llr.oddsMultiplier() : ((SprtDesign) design).oddsRatio();
            run.add(design, mix, 1).add(design, mix, odds);
        }
    }

    Answer answer() {
        List<String> warnings = new ArrayList<>(chart.warnings());
        if (chart.riskAdjusted()) {
            warnings.add(MonitoringWords.OWN_GRADE);
        }
        if (riskLeftOut) {
            warnings.add("the column risk was not used: this chart is the same for easy and for difficult cases");
        }
        weakness(warnings);
        return new Answer(json(), text(), warnings, sentence());
    }

    private Map<String, @Nullable Object> json() {
        Map<String, @Nullable Object> json = new LinkedHashMap<>(Json.object(
                "chart",
                MonitoringWords.name(design),
                "parameters",
                parameters(),
                "limit",
                settled == null ? null : settled.json(),
                "lower_limit",
                design.lowerLimit(),
                "upper_limit",
                design.upperLimit(),
                "restart",
                restart.name().toLowerCase(Locale.ROOT),
                "risk_adjusted",
                chart.riskAdjusted(),
                "n",
                series.size(),
                "failures",
                series.failureCount(),
                "failure_rate",
                (double) series.failureCount() / series.size(),
                "last",
                chart.last()));
        if (design instanceof SprtDesign sprt) {
            SprtVerdict verdict = SprtVerdict.of(sprt, series);
            SignalKind decision = verdict.decision();
            json.put(
                    "verdict",
                    Json.object(
                            "decision",
                            decision == null ? null : decision.name().toLowerCase(Locale.ROOT),
                            "decided_at",
                            verdict.decidedAt(),
                            "first_accepted_at",
                            verdict.acceptedAt(),
                            "two_lines_at",
                            verdict.twoLinesAt(),
                            "first_alarm_at",
                            verdict.alarmAt()));
        }
        json.put("signals", chart.signals().stream().map(this::json).toList());
        json.put("points", chart.points().stream().map(this::json).toList());
        json.put("run_lengths", run.json());
        return json;
    }

    private Map<String, @Nullable Object> parameters() {
        return MonitoringJson.parameters(design, watching);
    }

    private Object json(ChartPoint point) {
        SignalKind signal = point.signal();
        return Json.object(
                "case",
                point.caseNumber(),
                "failure",
                point.observed() == 1,
                "risk",
                mix == null ? null : series.risks().get((int) (point.caseNumber() - series.first())),
                "statistic",
                point.statistic(),
                "signal",
                signal == null ? null : signal.name().toLowerCase(Locale.ROOT),
                "stage",
                point.note().isEmpty() ? null : point.note());
    }

    private List<String> text() {
        List<String> lines = new ArrayList<>();
        lines.add("Chart: " + MonitoringWords.title(design));
        if (settled != null) {
            lines.add("Limit: h " + settled.how());
        } else {
            lines.add("Limits: accepted at " + Figures.plain(design.lowerLimit()) + " or below, alarm at "
                    + Figures.plain(design.upperLimit()) + " or above");
        }
        lines.add(
                chart.riskAdjusted()
                        ? "Each case weighs by its own risk, on average " + Figures.plain(mean(), 4)
                        : "A success adds " + signed(design.weight(false, design.acceptableRate())) + ", a failure "
                                + signed(design.weight(true, design.acceptableRate())));
        lines.add("Cases " + series.first() + " to " + (series.first() + series.size() - 1) + ": "
                + MonitoringWords.failures(series.failureCount()) + " ("
                + Figures.percent((double) series.failureCount() / series.size()) + "); last value "
                + Figures.plain(chart.last()) + stopped());
        lines.add("");
        List<ChartPoint> shown = allPoints ? chart.points() : chart.signals();
        if (shown.isEmpty()) {
            lines.add("No signal.");
        } else {
            lines.addAll(points(shown));
        }
        if (design instanceof SprtDesign sprt) {
            SprtVerdict verdict = SprtVerdict.of(sprt, series);
            lines.add("");
            lines.add("Line first at or below " + Figures.plain(design.lowerLimit()) + " (one convention): "
                    + at(verdict.acceptedAt()));
            lines.add(
                    "Two boundary lines in turn (another convention, asks for far more): " + at(verdict.twoLinesAt()));
            lines.add("Alarm: " + at(verdict.alarmAt()));
        }
        lines.add("");
        lines.add("What this chart does from its start:");
        lines.addAll(run.text());
        return lines;
    }

    /** A chart that stops says where, and what it did not look at. */
    private String stopped() {
        int charted = chart.points().size();
        if (restart != Restart.STOP || charted == series.size() || charted == 0) {
            return "";
        }
        long last = chart.points().get(charted - 1).caseNumber();
        int left = series.size() - charted;
        return " at case " + last + ", where the chart stopped; the " + MonitoringWords.cases(left)
                + " after it are not charted (--watch H or --restart continue goes on)";
    }

    private double mean() {
        return mix == null ? design.acceptableRate() : mix.meanRisk();
    }

    private static String signed(double weight) {
        return (weight > 0 ? "+" : "") + Figures.plain(weight, 6);
    }

    private static String at(@Nullable Long number) {
        return number == null ? NEVER : "case " + number;
    }

    private List<String> points(List<ChartPoint> shown) {
        TextTable table = new TextTable(">case", ">failure", ">value", "signal");
        int before = -1;
        for (ChartPoint point : shown) {
            SignalKind signal = point.signal();
            // A line that stays beyond its limit is said once, unless every point is wanted.
            int index = (int) (point.caseNumber() - series.first());
            boolean follows = !allPoints && index == before + 1 && before >= 0;
            before = index;
            if (follows && restart == Restart.CONTINUE) {
                continue;
            }
            String words = signal == null ? "" : MonitoringWords.signal(signal, learning);
            table.row(
                    Long.toString(point.caseNumber()),
                    point.observed() == 1 ? "1" : "0",
                    Figures.plain(point.statistic()),
                    words);
        }
        return Answer.lines(table);
    }

    /** Says where the chart could hardly have signalled whatever the skill. */
    private void weakness(List<String> warnings) {
        int n = series.size();
        int fewest = design instanceof SprtDesign sprt
                ? sprt.fewestCasesToAccept()
                : design instanceof LearningCurveDesign lc ? lc.fewestCases() : 0;
        if (!chart.riskAdjusted() && n < fewest) {
            warnings.add("even without any failure this chart needs " + fewest
                    + " cases to show an acceptable rate; there are " + n);
        }
        double power = right().get(position(n));
        if (power < 0.5) {
            warnings.add("within " + n + " cases this chart gives its right signal with a probability of only "
                    + Figures.percent(power) + " " + (learning ? "at the acceptable rate" : "at the changed rate")
                    + "; no signal is no proof");
        }
        if (!(design instanceof SprtDesign) && wrong() > 0.2) {
            warnings.add("this limit is loose: of 100 logs of " + n + " cases at the "
                    + (learning
                            ? "unacceptable rate, it would call about "
                            : "acceptable rate, it would alarm for about ")
                    + Math.round(100 * wrong()) + (learning ? " competent" : "") + "; choose it by --within " + n);
        }
    }

    /** P(right upper signal within each horizon): at the adequate rate for a learning curve, else at the changed rate. */
    private List<Double> right() {
        return run.lines().get(learning ? 0 : 1).within();
    }

    private double wrong() {
        return run.lines().get(learning ? 1 : 0).within().get(position(series.size()));
    }

    private static int position(int n) {
        // horizons are 50, 100 and n in ascending order, once each
        return n <= 50 ? 0 : n <= 100 ? 1 : 2;
    }

    private String sentence() {
        return MonitoringSentence.of(design, series, chart, wrong()) + " " + MonitoringWords.CAUTION;
    }
}
