package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.monitoring.Baseline;
import org.sideport.stats.monitoring.ChartPoint;
import org.sideport.stats.monitoring.SignalKind;
import org.sideport.stats.monitoring.ValueChart;

/** A chart of measured values, for machines and for people. */
final class ChartReport {

    private final String name;
    private final ValueChart chart;
    private final ValueRunReport run;
    private final boolean logarithm;
    private final boolean ownBaseline;
    private final boolean allPoints;

    /**
     * @param logarithm whether the chart is one of logarithms
     * @param ownBaseline whether the baseline comes from the very cases that are charted
     */
    ChartReport(
            String name,
            ValueChart chart,
            ValueRunReport run,
            boolean logarithm,
            boolean ownBaseline,
            boolean allPoints) {
        this.name = name;
        this.chart = chart;
        this.run = run;
        this.logarithm = logarithm;
        this.ownBaseline = ownBaseline;
        this.allPoints = allPoints;
    }

    Answer answer() {
        List<String> warnings = new ArrayList<>(chart.warnings());
        if (ownBaseline) {
            warnings.add(
                    "the baseline comes from the very cases that are charted, so the chart looks back and a lasting"
                            + " difference hides in it; to watch new cases, fix the baseline beforehand with --baseline or --mean"
                            + " and --sd");
        }
        return new Answer(json(), text(), warnings, sentence());
    }

    private Map<String, @Nullable Object> json() {
        Baseline baseline = chart.baseline();
        return Json.object(
                "chart",
                name,
                "kind",
                chart.kind(),
                "scale",
                logarithm ? "ln" : "value",
                "n",
                chart.points().size(),
                "baseline",
                Json.object(
                        "mean",
                        baseline.mean(),
                        "sd",
                        baseline.sd(),
                        "cases",
                        baseline.cases() == 0 ? null : (Integer) baseline.cases()),
                "signals",
                chart.signals().stream().map(this::json).toList(),
                "points",
                chart.points().stream().map(this::json).toList(),
                second(),
                chart.otherPoints().stream().map(this::json).toList(),
                "run_lengths",
                run.json());
    }

    private String second() {
        return switch (name) {
            case "individuals" -> "moving_ranges";
            case "cusum" -> "lower_side";
            default -> "other_points";
        };
    }

    private Object json(ChartPoint point) {
        SignalKind signal = point.signal();
        return Json.object(
                "case",
                point.caseNumber(),
                "value",
                original(point.observed()),
                "statistic",
                point.statistic(),
                "lower",
                point.lower(),
                "upper",
                point.upper(),
                "signal",
                signal == null ? null : signal.name().toLowerCase(Locale.ROOT),
                "rule",
                point.note().isEmpty() ? null : point.note());
    }

    private double original(double value) {
        return logarithm ? Math.exp(value) : value;
    }

    private List<String> text() {
        Baseline baseline = chart.baseline();
        List<String> lines = new ArrayList<>();
        lines.add("Chart: " + chart.kind() + (logarithm ? ", of natural logarithms" : ""));
        lines.add("Baseline: mean " + Figures.plain(baseline.mean(), 4) + ", SD " + Figures.plain(baseline.sd(), 4)
                + (baseline.cases() == 0 ? ", as given" : ", from the first " + baseline.cases() + " cases")
                + (logarithm ? " (geometric mean " + Figures.plain(Math.exp(baseline.mean())) + ")" : ""));
        if (!name.equals("cusum")) {
            ChartPoint last = chart.points().get(chart.points().size() - 1);
            lines.add("Limits" + (name.equals("ewma") ? " at the last case" : "") + ": " + bound(last.lower()) + " to "
                    + bound(last.upper()) + (logarithm ? ", as values" : ""));
        }
        if (name.equals("individuals") && !chart.otherPoints().isEmpty()) {
            lines.add("Limit of the step between two cases: "
                    + Figures.plain(chart.otherPoints().get(0).upper(), 4)
                    + (logarithm ? ", of the logarithms" : ""));
        }
        lines.add("");
        List<ChartPoint> shown = new ArrayList<>(allPoints ? chart.points() : List.of());
        if (allPoints) {
            chart.otherPoints().stream().filter(point -> point.signal() != null).forEach(shown::add);
            shown.sort(java.util.Comparator.comparingLong(ChartPoint::caseNumber));
        } else {
            shown.addAll(chart.signals());
        }
        if (shown.isEmpty()) {
            lines.add("No signal in " + MonitoringWords.cases(chart.points().size()) + ".");
        } else {
            lines.addAll(table(shown));
        }
        lines.add("");
        lines.add("What this chart does" + (name.equals("individuals") ? " (without its steps)" : "") + ":");
        lines.addAll(run.text());
        return lines;
    }

    private String bound(@Nullable Double limit) {
        return limit == null ? "–" : Figures.plain(original(limit), 4);
    }

    private List<String> table(List<ChartPoint> shown) {
        TextTable table = new TextTable(">case", ">value", ">statistic", "signal");
        for (ChartPoint point : shown) {
            SignalKind signal = point.signal();
            String words = signal == null ? "" : MonitoringWords.signal(signal, false);
            table.row(
                    Long.toString(point.caseNumber()),
                    Figures.plain(original(point.observed())),
                    Figures.plain(point.statistic()),
                    words + (point.note().isEmpty() ? "" : ": " + point.note()));
        }
        return Answer.lines(table);
    }

    private String sentence() {
        List<Long> signalled =
                chart.signals().stream().map(ChartPoint::caseNumber).distinct().toList();
        int n = chart.points().size();
        String found = signalled.isEmpty()
                ? "None of " + MonitoringWords.cases(n)
                        + " stands out from the baseline, which is no proof that nothing" + " changed"
                : (signalled.size() == 1 ? "Case " : "Cases ") + list(signalled) + " of " + n
                        + (signalled.size() == 1 ? " stands" : " stand") + " out from the baseline: a reason to look at"
                        + (signalled.size() == 1 ? " it" : " them") + ", not a judgement";
        return found + "; while nothing changes such a chart signals every " + Figures.plain(run.average(0), 0)
                + " cases on average. A duration alone says nothing about safety: speed is not competence. "
                + MonitoringWords.VALUE_CAUTION;
    }

    private static String list(List<Long> numbers) {
        int shown = Math.min(10, numbers.size());
        String text = String.join(
                ", ", numbers.subList(0, shown).stream().map(String::valueOf).toList());
        return shown == numbers.size() ? text : text + " and " + (numbers.size() - shown) + " more";
    }
}
