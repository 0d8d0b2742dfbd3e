package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.casemix.OddsTable;
import org.sideport.timing.CsvTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "casemix",
        description = {
            "Expected risk of each case, so that results are judged by the difficulty of the cases.",
            "",
            "By a logistic model of your own cases (--factors), or a published table of odds ratios (--odds).",
            "",
            "The CSV has one row for each case; columns case (a code), failure (1 where the",
            "event happened, 0 where not) and the factors, for instance:",
            "  case,failure,age,sex,pupil,surgeon",
            "  C07,0,72,f,small,specialist registrar",
            "",
            "  casemix DATA.csv --factors age,sex,pupil   fits a model and checks it",
            "  casemix DATA.csv --odds cataract           risk of each case by the table",
            "  casemix --odds cataract --json             prints the table, to be edited",
            "",
            "With --odds the column failure may be missing. The surgeon's grade is left out",
            "unless you say --with surgeon: in the expected risk of a trainee's cases it",
            "would adjust the inexperience away. Both risks are shown where it is known."
        })
final class CaseMixCommand extends StatsCommand {

    @Parameters(paramLabel = "DATA.csv", arity = "0..1", description = "The cases.")
    @Nullable
    Path file;

    @Option(
            names = "--factors",
            paramLabel = "NAME,...",
            split = ",",
            hideParamSyntax = true,
            description = "Fit a model with these columns: numbers as they are, words as categories.")
    String[] factors = {};

    @Option(
            names = "--outcome",
            paramLabel = "NAME",
            defaultValue = "failure",
            description = "Column of the outcome, 0 or 1 (default: failure).")
    String outcome = "";

    @Option(
            names = "--reference",
            paramLabel = "NAME=LEVEL",
            hideParamSyntax = true,
            split = ",",
            description = "Take this column as categories compared with this level (default: the first in the"
                    + " alphabet).")
    Map<String, String> references = new LinkedHashMap<>();

    @Option(
            names = "--firth",
            description = "Fit by Firth's penalised likelihood: for few events, or where a factor separates the cases.")
    boolean firth;

    @Option(
            names = "--odds",
            paramLabel = "TABLE",
            description = "Use a table of odds ratios: cataract (Narendran et al. 2009), or your own JSON file.")
    @Nullable
    String odds;

    @Option(
            names = "--with",
            paramLabel = "NAME,...",
            split = ",",
            hideParamSyntax = true,
            description = "With --odds: count these factors that the table leaves out by itself.")
    String[] with = {};

    @Option(
            names = "--without",
            paramLabel = "NAME,...",
            split = ",",
            hideParamSyntax = true,
            description = "With --odds: leave these factors out.")
    String[] without = {};

    @Option(
            names = "--baseline",
            paramLabel = "P",
            description = "With --odds: risk of the reference case, between 0 and 1 (default: the table's).")
    @Nullable
    Double baseline;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    CaseMixCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        if ((factors.length == 0) == (odds == null)) {
            throw new InputException(
                    factors.length == 0 ? "neither a model nor a table is asked for" : "both are asked for",
                    "--factors, --odds",
                    "say --factors NAME,... to fit a model, or --odds cataract to use a table");
        }
        String outcomeColumn = outcome.toLowerCase(Locale.ROOT);
        if (odds == null) {
            return new CaseMixFit(CsvTable.read(needed()), outcomeColumn, confidence.level())
                    .answer(lower(factors), lower(references), firth);
        }
        OddsTable table = OddsTableFile.read(odds);
        if (baseline != null) {
            if (!(baseline > 0 && baseline < 1)) {
                throw new InputException(
                        "a risk lies between 0 and 1, not at " + baseline, "--baseline", "write for instance 0.0075");
            }
            table = table.withBaseline(baseline, "given with --baseline");
        }
        if (file == null) {
            return Outcome.of(CaseMixOdds.shown(table));
        }
        return new CaseMixOdds(CsvTable.read(file), table, outcomeColumn, confidence.level())
                .answer(lower(with), lower(without));
    }

    private Path needed() {
        if (file == null) {
            throw new InputException("no file of cases is named", "DATA.csv", "name it, or see --help");
        }
        return file;
    }

    private static List<String> lower(String[] names) {
        return Arrays.stream(names)
                .map(name -> name.strip().toLowerCase(Locale.ROOT))
                .toList();
    }

    private static Map<String, String> lower(Map<String, String> references) {
        Map<String, String> lower = new LinkedHashMap<>();
        references.forEach((name, level) -> lower.put(name.strip().toLowerCase(Locale.ROOT), level.strip()));
        return lower;
    }
}
