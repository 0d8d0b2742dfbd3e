package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.monitoring.BinaryDesign;
import org.sideport.stats.monitoring.BinaryRunLength;
import org.sideport.stats.monitoring.LlrDesign;
import org.sideport.stats.monitoring.RiskMix;
import org.sideport.stats.monitoring.RunLength;
import org.sideport.stats.monitoring.SprtDesign;
import org.sideport.stats.monitoring.SprtRunLength;

/**
 * What a chart of failures does at some true rates: run lengths and the probabilities of a signal within some numbers of
 * cases; for machines and for people.
 */
final class RunLengthReport {

    /** Risks are put together to so many groups for speed. */
    static final int GROUPS = 40;

    /** One true rate. */
    record Line(
            double rate,
            @Nullable Double odds,
            double average,
            double sd,
            long median,
            double error,
            String method,
            List<Double> within,
            @Nullable List<Double> accepted) {}

    private final List<Line> lines = new ArrayList<>();
    private final int[] horizons;
    private final boolean sequential;

    /** @param horizons numbers of cases */
    RunLengthReport(BinaryDesign design, int[] horizons) {
        this.horizons = IntStream.of(horizons).sorted().distinct().toArray();
        this.sequential = design instanceof SprtDesign;
    }

    List<Line> lines() {
        return lines;
    }

    /** Every case fails with this rate. */
    RunLengthReport add(BinaryDesign design, double rate) {
        if (design instanceof SprtDesign sprt) {
            lines.add(line(SprtRunLength.of(sprt, rate), null, "exact Markov chain of the number of failures"));
        } else {
            lines.add(line(rate, null, BinaryRunLength.of(design, rate)));
        }
        return this;
    }

    /** The odds of failure of every case are those of its risk times a factor. */
    RunLengthReport add(BinaryDesign design, RiskMix mix, double odds) {
        RiskMix grouped = mix.grouped(GROUPS);
        if (design instanceof SprtDesign sprt) {
            lines.add(
                    line(SprtRunLength.of(sprt, grouped, odds), odds, "Markov chain on a grid, over the cases' risks"));
        } else {
            double rate = 0;
            for (int i = 0; i < mix.risks().size(); i++) {
                double risk = mix.risks().get(i);
                rate += mix.shares().get(i) * odds * risk / (1 - risk + odds * risk);
            }
            lines.add(line(rate, odds, BinaryRunLength.of((LlrDesign) design, grouped, odds)));
        }
        return this;
    }

    private Line line(double rate, @Nullable Double odds, RunLength run) {
        return new Line(
                rate,
                odds,
                run.arl(),
                run.sd(),
                run.median(),
                run.error(),
                run.method(),
                IntStream.of(horizons).mapToObj(run::signalWithin).toList(),
                null);
    }

    private Line line(SprtRunLength run, @Nullable Double odds, String method) {
        return new Line(
                run.rate(),
                odds,
                run.cases(),
                run.sd(),
                run.median(),
                run.error(),
                method,
                Stream.concat(IntStream.of(horizons).mapToObj(run::alarmsWithin), Stream.of(run.alarms()))
                        .toList(),
                Stream.concat(IntStream.of(horizons).mapToObj(run::acceptsWithin), Stream.of(run.accepts()))
                        .toList());
    }

    List<Object> json() {
        List<Object> all = new ArrayList<>();
        for (Line line : lines) {
            List<Object> within = new ArrayList<>();
            List<Double> accepted = line.accepted();
            for (int i = 0; i < horizons.length; i++) {
                within.add(
                        accepted == null
                                ? Json.object(
                                        "cases",
                                        horizons[i],
                                        "signal",
                                        line.within().get(i))
                                : Json.object(
                                        "cases",
                                        horizons[i],
                                        "accepted",
                                        accepted.get(i),
                                        "alarm",
                                        line.within().get(i)));
            }
            Map<String, @Nullable Object> json = new LinkedHashMap<>(Json.object(
                    "rate",
                    line.rate(),
                    "odds_multiplier",
                    line.odds(),
                    "average",
                    line.average(),
                    "sd",
                    line.sd(),
                    "median",
                    line.median(),
                    "error",
                    Figures.finite(line.error()),
                    "method",
                    line.method(),
                    "within",
                    within));
            if (accepted != null) {
                json.put("accepted", accepted.get(horizons.length));
                json.put("alarm", line.within().get(horizons.length));
            }
            all.add(json);
        }
        return all;
    }

    List<String> text() {
        List<String> headers = new ArrayList<>(List.of(">true rate", ">cases on average", ">SD", ">median"));
        for (int horizon : horizons) {
            if (sequential) {
                headers.add(">accepted ≤ " + horizon);
                headers.add(">alarm ≤ " + horizon);
            } else {
                headers.add(">signal ≤ " + horizon);
            }
        }
        if (sequential) {
            headers.add(">accepted in the end");
            headers.add(">alarm in the end");
        }
        TextTable table = new TextTable(headers.toArray(String[]::new));
        for (Line line : lines) {
            List<String> cells = new ArrayList<>(List.of(
                    Figures.plain(line.rate(), 4),
                    Figures.plain(line.average(), 1),
                    Figures.plain(line.sd(), 1),
                    Long.toString(line.median())));
            List<Double> accepted = line.accepted();
            for (int i = 0; i < line.within().size(); i++) {
                if (accepted != null) {
                    cells.add(Figures.percent(accepted.get(i)));
                }
                cells.add(Figures.percent(line.within().get(i)));
            }
            table.row(cells.toArray(String[]::new));
        }
        List<String> text = new ArrayList<>(Answer.lines(table));
        lines.stream().map(Line::method).distinct().forEach(method -> text.add("  by " + method));
        return text;
    }
}
