package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleFunction;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.monitoring.ValueRunLength;

/** What a chart of measured values does after some shifts of the mean, for machines and for people. */
final class ValueRunReport {

    private final Map<Double, ValueRunLength> runs = new LinkedHashMap<>();
    private final int[] horizons;

    /**
     * @param shifts in SD of a value
     * @param horizons numbers of cases
     */
    ValueRunReport(double[] shifts, int[] horizons, DoubleFunction<ValueRunLength> run) {
        this.horizons = horizons.clone();
        for (double shift : shifts) {
            runs.put(shift, run.apply(shift));
        }
    }

    double average(double shift) {
        ValueRunLength run = runs.get(shift);
        if (run == null) {
            throw new IllegalArgumentException("no run length for a shift of " + shift);
        }
        return run.arl();
    }

    List<Object> json() {
        List<Object> all = new ArrayList<>();
        runs.forEach((shift, run) -> {
            List<Object> within = new ArrayList<>();
            for (int horizon : horizons) {
                within.add(Json.object(
                        "cases", horizon, "signal", run.distribution().signalWithin(horizon)));
            }
            all.add(Json.object(
                    "shift_sd",
                    shift,
                    "average",
                    run.arl(),
                    "sd",
                    run.distribution().sd(),
                    "median",
                    run.distribution().median(),
                    "method",
                    run.method(),
                    "within",
                    within));
        });
        return all;
    }

    List<String> text() {
        List<String> headers = new ArrayList<>(List.of(">shift (SD)", ">cases on average", ">SD", ">median"));
        for (int horizon : horizons) {
            headers.add(">signal ≤ " + horizon);
        }
        TextTable table = new TextTable(headers.toArray(String[]::new));
        runs.forEach((shift, run) -> {
            List<String> cells = new ArrayList<>(List.of(
                    Figures.plain(shift, 2),
                    Figures.plain(run.arl(), 2),
                    Figures.plain(run.distribution().sd(), 2),
                    Long.toString(run.distribution().median())));
            for (int horizon : horizons) {
                cells.add(Figures.percent(run.distribution().signalWithin(horizon)));
            }
            table.row(cells.toArray(String[]::new));
        });
        List<String> text = new ArrayList<>(Answer.lines(table));
        runs.values().stream().map(ValueRunLength::method).distinct().forEach(method -> text.add("  by " + method));
        return text;
    }
}
