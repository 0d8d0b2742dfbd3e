package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.QuantileType;
import org.sideport.stats.Quantiles;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.stats.describe.BinomialLimits;
import org.sideport.stats.describe.GeometricMean;
import org.sideport.stats.describe.Moments;
import org.sideport.stats.describe.PercentileRank;
import org.sideport.stats.describe.QuantileLimits;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "quantiles",
        description = {
            "Mean, spread and quantiles of numbers, by group; or where each stands in a reference sample.",
            "",
            "The CSV has a column value and, if you like, a column group; for instance",
            "durations in seconds:",
            "  group,value",
            "  rhexis,65.1",
            "",
            "Limits of quantiles are those of order statistics and hold for any",
            "distribution; the geometric mean is there if all values are positive."
        })
final class QuantilesCommand extends StatsCommand {

    private static final String ALL = "all";

    @Parameters(paramLabel = "DATA.csv", description = "The values.")
    Path file = Path.of("");

    @Option(
            names = "--type",
            paramLabel = "1-9",
            defaultValue = "7",
            description = "Definition of the quantiles by Hyndman & Fan 1996 (default: 7, as in spreadsheets).")
    int type;

    @Option(
            names = "--p",
            paramLabel = "P,...",
            split = ",",
            hideParamSyntax = true,
            defaultValue = "0.1,0.25,0.5,0.75,0.9",
            description = "Shares of the quantiles, 0 to 1 (default: 0.1,0.25,0.5,0.75,0.9).")
    double[] shares = {};

    @Option(
            names = "--reference",
            paramLabel = "FILE.csv",
            description =
                    "Say where each value stands within the values of this file (column value; if both files have a"
                            + " column group, within the same group).")
    @Nullable
    Path reference;

    @Option(
            names = "--exact",
            description = "With --reference: Clopper-Pearson limits, never below the level (default: Wilson limits).")
    boolean exact;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    QuantilesCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        if (type < 1 || type > 9) {
            throw new InputException("there is no quantile type " + type, "--type", "take one of 1 to 9; 7 is usual");
        }
        for (double share : shares) {
            if (!(share >= 0 && share <= 1)) {
                throw new InputException(
                        "a quantile lies between 0 and 1, not at " + share, "--p", "write for instance 0.25,0.5,0.75");
            }
        }
        Map<String, List<Double>> groups = groups(file);
        return Outcome.of(reference == null ? described(groups) : compared(groups, groups(reference)));
    }

    private static Map<String, List<Double>> groups(Path file) {
        LongData data = LongCsv.read(file, "value", List.of(), List.of("group"));
        @Nullable Factor group = data.find("group").orElse(null);
        Map<String, List<Double>> groups = new LinkedHashMap<>();
        for (int i = 0; i < data.size(); i++) {
            String name = group == null ? ALL : group.levels().get(group.codes()[i]);
            groups.computeIfAbsent(name, g -> new ArrayList<>()).add(data.values()[i]);
        }
        return groups;
    }

    private Answer described(Map<String, List<Double>> groups) {
        QuantileType definition = QuantileType.ofNumber(type);
        TextTable table = new TextTable(header());
        TextTable limits = new TextTable("group", ">p", ">quantile", ">lower", ">upper", ">coverage");
        List<Object> json = new ArrayList<>();
        List<String> warnings = new ArrayList<>();
        groups.forEach((name, list) -> {
            double[] values = list.stream().mapToDouble(Double::doubleValue).toArray();
            Moments moments = Moments.of(values);
            @Nullable
            GeometricMean geometric =
                    GeometricMean.of(values, confidence.level()) instanceof Outcome.Found<GeometricMean> found
                            ? found.value()
                            : null;
            List<String> cells = new ArrayList<>(List.of(
                    name,
                    Integer.toString(values.length),
                    Figures.plain(moments.mean()),
                    Figures.plain(moments.sd()),
                    geometric == null ? "–" : Figures.plain(geometric.mean().value()),
                    geometric == null ? "–" : Figures.plain(geometric.sdFactor())));
            List<Object> quantiles = new ArrayList<>();
            double[] sorted = values.clone();
            Arrays.sort(sorted);
            for (double p : shares) {
                double quantile = Quantiles.ofSorted(sorted, p, definition);
                cells.add(Figures.plain(quantile));
                @Nullable
                QuantileLimits found = p > 0
                                && p < 1
                                && QuantileLimits.of(values, p, confidence.level())
                                        instanceof Outcome.Found<QuantileLimits> l
                        ? l.value()
                        : null;
                quantiles.add(Json.object(
                        "p",
                        p,
                        "value",
                        quantile,
                        "lower",
                        found == null ? null : Figures.finite(found.limits().lower()),
                        "upper",
                        found == null ? null : Figures.finite(found.limits().upper()),
                        "coverage",
                        found == null ? null : found.coverage()));
                limits.row(
                        name,
                        Figures.plain(p, 2),
                        Figures.plain(quantile),
                        found == null ? "–" : Figures.plain(found.limits().lower()),
                        found == null ? "–" : Figures.plain(found.limits().upper()),
                        found == null ? "–" : Figures.percent(found.coverage()));
            }
            table.row(cells.toArray(String[]::new));
            if (values.length < 20) {
                warnings.add("Group " + name + " has only " + values.length
                        + " values: its outer quantiles are hardly known.");
            }
            json.add(Json.object(
                    "group",
                    name,
                    "n",
                    values.length,
                    "mean",
                    moments.mean(),
                    "sd",
                    moments.sd(),
                    "geometric_mean",
                    geometric == null ? null : Figures.json(geometric.mean()),
                    "geometric_sd",
                    geometric == null ? null : geometric.sdFactor(),
                    "quantiles",
                    quantiles));
        });
        List<String> lines = new ArrayList<>(Answer.lines(table));
        lines.add("");
        lines.addAll(Answer.lines(limits));
        return new Answer(
                Json.object("type", type, "level", confidence.level(), "groups", json),
                lines,
                warnings,
                "Quantiles of type " + type
                        + " with distribution-free limits; a quantile of past cases is a description,"
                        + " not a standard to pass.");
    }

    private String[] header() {
        List<String> header =
                new ArrayList<>(List.of("group", ">n", ">mean", ">SD", ">geometric mean", ">geometric SD"));
        for (double p : shares) {
            header.add(">p" + Figures.plain(100 * p, 100 * p % 1 == 0 ? 0 : 1));
        }
        return header.toArray(String[]::new);
    }

    private Answer compared(Map<String, List<Double>> groups, Map<String, List<Double>> references) {
        boolean byGroup = !references.keySet().equals(java.util.Set.of(ALL))
                && !groups.keySet().equals(java.util.Set.of(ALL));
        double[] everything = references.values().stream()
                .flatMap(List::stream)
                .mapToDouble(Double::doubleValue)
                .toArray();
        TextTable table = new TextTable("group", ">value", ">percentile", ">lower", ">upper", ">reference n");
        List<Object> json = new ArrayList<>();
        List<String> warnings = new ArrayList<>();
        groups.forEach((name, values) -> {
            double[] others = byGroup
                    ? references.getOrDefault(name, List.of()).stream()
                            .mapToDouble(Double::doubleValue)
                            .toArray()
                    : everything;
            for (double value : values) {
                Outcome<Estimate> rank = PercentileRank.of(
                        value,
                        others,
                        exact ? BinomialLimits.CLOPPER_PEARSON : BinomialLimits.WILSON,
                        confidence.level());
                if (rank instanceof Outcome.Refused<Estimate> refused) {
                    Refusal refusal = refused.refusal();
                    warnings.add("Group " + name + ": " + refusal.why() + ".");
                    json.add(Json.object("group", name, "value", value, "percentile", null));
                    table.row(name, Figures.plain(value), "–", "–", "–", "0");
                    continue;
                }
                Estimate found = rank.orElseThrow();
                json.add(Json.object("group", name, "value", value, "percentile", Figures.json(found)));
                found.warnings().stream()
                        .map(w -> Figures.plain(value) + ": " + w)
                        .forEach(warnings::add);
                table.row(
                        name,
                        Figures.plain(value),
                        Figures.percent(found.value()),
                        found.limits() == null
                                ? "–"
                                : Figures.percent(found.limits().lower()),
                        found.limits() == null
                                ? "–"
                                : Figures.percent(found.limits().upper()),
                        Integer.toString(found.n()));
            }
        });
        return new Answer(
                Json.object("level", confidence.level(), "percentiles", json),
                Answer.lines(table),
                warnings.stream().distinct().toList(),
                "The percentile is the share of the reference below the value (equal ones half); it says where a value"
                        + " stands among these cases, not whether it is good, and speed is not competence.");
    }
}
