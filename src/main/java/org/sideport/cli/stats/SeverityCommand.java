package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.data.Factor;
import org.sideport.stats.rasch.Estimation;
import org.sideport.stats.rasch.ManyFacetRasch;
import org.sideport.stats.rasch.Markings;
import org.sideport.stats.rasch.StepModel;
import org.sideport.timing.CsvTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "severity",
        description = {
            "How severe each assessor is, how able each trainee and how difficult each item, on one scale of logits"
                    + " (many-facet Rasch model): with standard errors, limits, fit, and the average that each would"
                    + " get if all others stood at their mean.",
            "",
            "Reads a CSV file, one mark a row, levels as whole numbers in order of merit:",
            "  trainee,assessor,item,level",
            "  T03,A1,rhexis,4",
            "The names of the columns can be changed below; subject, rater and score are understood too.",
            "Not every assessor needs to mark every trainee, but all must be tied together by shared trainees; if they"
                    + " are not, the groups are named. Several cases of a trainee are further rows; see --case.",
            ""
        })
final class SeverityCommand extends StatsCommand {

    @Parameters(paramLabel = "DATA.csv", description = "The marks.")
    Path file = Path.of("");

    @Option(
            names = "--model",
            paramLabel = "M",
            defaultValue = "rating-scale",
            description =
                    "rating-scale (the same distances between levels in all items) or partial-credit (each item has"
                            + " its own; needs more marks); default: ${DEFAULT-VALUE}.")
    String model = "rating-scale";

    @Option(
            names = "--trainee",
            paramLabel = "COLUMN",
            defaultValue = "trainee",
            description = "Column of trainees; default: ${DEFAULT-VALUE}.")
    String trainee = "trainee";

    @Option(
            names = "--assessor",
            paramLabel = "COLUMN",
            defaultValue = "assessor",
            description = "Column of assessors; default: ${DEFAULT-VALUE}.")
    String assessor = "assessor";

    @Option(
            names = "--item",
            paramLabel = "COLUMN",
            defaultValue = "item",
            description = "Column of items; default: ${DEFAULT-VALUE}.")
    String item = "item";

    @Option(
            names = "--mark",
            paramLabel = "COLUMN",
            defaultValue = "level",
            description = "Column of the level given; default: ${DEFAULT-VALUE}. A row with an empty one is left out.")
    String given = "level";

    @Option(
            names = "--case",
            paramLabel = "COLUMN",
            description = "Column of cases: each case of a trainee gets a measure of its own and assessors are compared"
                    + " within cases only, so that differences between operations do no harm. Needs cases that several"
                    + " assessors marked. Without it, cases of a trainee count as repeated marks.")
    @Nullable
    String caseColumn;

    @Option(
            names = "--estimation",
            paramLabel = "E",
            defaultValue = "bias-reduced",
            description = "bias-reduced or conditional (as other software has it); default: ${DEFAULT-VALUE}.")
    String estimation = "bias-reduced";

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    SeverityCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        StepModel steps = choice(StepModel.values(), model, "--model");
        Estimation how = choice(Estimation.values(), estimation, "--estimation");
        return ManyFacetRasch.fit(marks(), steps, how, confidence.level())
                .map(fit -> new SeverityReport(fit, caseColumn != null, confidence.level()).answer());
    }

    private static <E extends Enum<E>> E choice(E[] values, String text, String option) {
        for (E value : values) {
            if (word(value).equals(text.toLowerCase(Locale.ROOT).replace('_', '-'))) {
                return value;
            }
        }
        throw new InputException(
                "there is no " + text,
                option,
                "take one of "
                        + String.join(
                                ", ",
                                Arrays.stream(values).map(SeverityCommand::word).toList()));
    }

    static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private Markings marks() {
        CsvTable table = CsvTable.read(file);
        String who = column(table, trainee, "trainee", "subject");
        String marker = column(table, assessor, "assessor", "rater");
        String what = column(table, item, "item", "item");
        String mark = column(table, given, "level", "score");
        @Nullable String cases = caseColumn == null ? null : column(table, caseColumn, "case", "case");
        List<CsvTable.Row> rows =
                table.rows().stream().filter(row -> !row.text(mark).isEmpty()).toList();
        if (rows.isEmpty()) {
            throw new InputException("no row has a " + mark, file.toString(), "fill the column in");
        }
        return new Markings(
                Factor.of(
                        "trainee",
                        rows.stream()
                                .map(row -> row.required(who) + (cases == null ? "" : "/" + row.required(cases)))
                                .toList()),
                Factor.of(
                        "assessor",
                        rows.stream().map(row -> row.required(marker)).toList()),
                Factor.of("item", rows.stream().map(row -> row.required(what)).toList()),
                rows.stream().mapToInt(row -> level(row, mark)).toArray());
    }

    /** The column named, or in place of an absent usual one its other usual name. */
    private static String column(CsvTable table, String named, String usual, String other) {
        String name = named.strip().toLowerCase(Locale.ROOT);
        if (name.equals(usual) && !table.has(name) && table.has(other)) {
            return other;
        }
        LongCsv.need(table, name);
        return name;
    }

    private static int level(CsvTable.Row row, String mark) {
        double value = LongCsv.number(row, mark);
        if (value != Math.rint(value) || Math.abs(value) > 1e6) {
            throw row.fault(
                    "the " + mark + " " + row.text(mark) + " is no whole number",
                    "write levels as whole numbers; multiply half points by 2");
        }
        return (int) value;
    }
}
