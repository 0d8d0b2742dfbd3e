package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.agreement.BlandAltman;
import org.sideport.stats.agreement.LimitsOfAgreement;
import org.sideport.stats.agreement.RepeatedBlandAltman;
import org.sideport.timing.CsvTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code sideport stats bland-altman}. */
@Command(
        name = "bland-altman",
        description = {
            "Limits of agreement of two raters or methods: how far apart may two measurements of one subject lie?",
            "",
            "The CSV has one row for each pair, with the columns subject,first,second, for instance:",
            "  subject,first,second",
            "  T03-case1,5.31,5.24",
            "Several rows for a subject are repeated measurements, which is allowed for: by default each row is a pair taken at"
                    + " the same moment while the true value may change from row to row; with --constant the true value stays, rows"
                    + " are no pairs, and a cell may be empty. The difference is first minus second."
        })
final class BlandAltmanCommand extends StatsCommand {

    @Parameters(index = "0", paramLabel = "FILE", description = "CSV with the columns subject,first,second")
    private Path file = Path.of("");

    @Option(
            names = "--constant",
            description = "Repeated measurements of one unchanging value for each subject, not in pairs.")
    private boolean constant;

    @Option(
            names = "--multiplier",
            paramLabel = "SDS",
            description =
                    "Standard deviations on either side of the mean difference (default: ${DEFAULT-VALUE}, for 95 %%).",
            defaultValue = "1.96")
    private double multiplier;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    BlandAltmanCommand(Console console) {
        super(console);
    }

    /** What one subject's rows hold. */
    private record Measured(List<Double> first, List<Double> second) {}

    @Override
    Outcome<Answer> answer() {
        if (!(multiplier > 0 && multiplier < 100)) {
            throw new InputException(
                    "a multiplier of " + multiplier + " makes no limits", "--multiplier", "give 1.96 or 2");
        }
        List<Measured> subjects = new ArrayList<>(read().values());
        boolean repeated = subjects.stream().anyMatch(s -> s.first.size() > 1 || s.second.size() > 1);
        if (!repeated) {
            return BlandAltman.of(
                            subjects.stream().mapToDouble(s -> s.first.get(0)).toArray(),
                            subjects.stream().mapToDouble(s -> s.second.get(0)).toArray(),
                            multiplier,
                            confidence.level())
                    .map(this::answer);
        }
        if (constant) {
            return RepeatedBlandAltman.constantTruth(
                            subjects.stream().map(s -> array(s.first)).toArray(double[][]::new),
                            subjects.stream().map(s -> array(s.second)).toArray(double[][]::new),
                            multiplier,
                            confidence.level())
                    .map(this::answer);
        }
        return RepeatedBlandAltman.varyingTruth(
                        subjects.stream().map(BlandAltmanCommand::differences).toArray(double[][]::new),
                        multiplier,
                        confidence.level())
                .map(this::answer);
    }

    private Map<String, Measured> read() {
        CsvTable table = CsvTable.read(file);
        List.of("subject", "first", "second").forEach(column -> LongCsv.need(table, column));
        Map<String, Measured> subjects = new LinkedHashMap<>();
        for (CsvTable.Row row : table.rows()) {
            Measured measured = subjects.computeIfAbsent(
                    row.required("subject"), key -> new Measured(new ArrayList<>(), new ArrayList<>()));
            if (!constant || !row.text("first").isEmpty()) {
                measured.first.add(LongCsv.number(row, "first"));
            }
            if (!constant || !row.text("second").isEmpty()) {
                measured.second.add(LongCsv.number(row, "second"));
            }
        }
        subjects.forEach((subject, measured) -> {
            if (measured.first.isEmpty() || measured.second.isEmpty()) {
                throw new InputException(
                        "subject " + subject + " was measured by one of the two only",
                        file.toString(),
                        "add the other measurement, or leave the subject out");
            }
        });
        if (subjects.isEmpty()) {
            throw new InputException("there are no rows", file.toString(), "add a row for each pair");
        }
        return subjects;
    }

    private static double[] array(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static double[] differences(Measured measured) {
        double[] differences = new double[measured.first.size()];
        for (int i = 0; i < differences.length; i++) {
            differences[i] = measured.first.get(i) - measured.second.get(i);
        }
        return differences;
    }

    private Answer answer(LimitsOfAgreement found) {
        Map<String, @Nullable Object> json = Json.object(
                "bias",
                Figures.json(found.bias()),
                "sd",
                found.sd(),
                "multiplier",
                found.multiplier(),
                "lower",
                Figures.json(found.lower()),
                "upper",
                Figures.json(found.upper()),
                "slope",
                found.slope(),
                "slope_p",
                found.slopeP());
        TextTable table = new TextTable("", ">value", "limits");
        row(table, "mean difference", found.bias());
        row(table, "lower limit of agreement", found.lower());
        row(table, "upper limit of agreement", found.upper());
        table.row("SD of a difference", Figures.plain(found.sd()), "");
        if (found.slope() != null) {
            table.row(
                    "change with size, for each unit",
                    Figures.plain(found.slope()),
                    "p " + Figures.plain(found.slopeP()));
        }
        return new Answer(
                json,
                Answer.lines(table),
                found.bias().warnings(),
                "The two differ by " + Figures.plain(found.bias().value())
                        + " on average (first minus second), and for most subjects by between "
                        + Figures.plain(found.lower().value()) + " and "
                        + Figures.plain(found.upper().value())
                        + ". Whether that is close enough to let one stand for the other is a clinical judgement, to be made"
                        + " before looking; the figures do not make it.");
    }

    private static void row(TextTable table, String name, Estimate estimate) {
        Interval limits = estimate.limits();
        table.row(name, Figures.plain(estimate.value()), limits == null ? "–" : Figures.limits(limits));
    }
}
