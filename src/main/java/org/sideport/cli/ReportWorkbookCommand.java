package org.sideport.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.sideport.workflow.CompleteLogs;
import org.sideport.workflow.WriteWorkbook;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "workbook",
        description = {
            "Writes the competency workbook of all cases, its tables as CSV files, or both.",
            "Means, counts, limits and coefficients are live formulas; the sheet Dictionary explains every column.",
            "Examples: sideport report workbook unit.xlsx",
            "          sideport report workbook visit.xlsx --shared --csv visit"
        })
final class ReportWorkbookCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "OUT.xlsx", arity = "0..1")
    @Nullable
    Path out;

    @Option(
            names = "--csv",
            paramLabel = "DIR",
            description = "Also writes each sheet as a CSV file into this folder; headers are the columns' codes.")
    @Nullable
    Path csv;

    @Option(
            names = "--shared",
            description = "For people outside the unit: no single cases, marks and tags; counts below the unit's limit"
                    + " (cohort peers) masked. Says so in the sheets.")
    boolean shared;

    @Option(
            names = "--language",
            paramLabel = "L",
            defaultValue = "en",
            description = "Of the headers in the workbook, such as de; codes stay. Default: ${DEFAULT-VALUE}.")
    String language = "en";

    @Option(
            names = "--log-complete",
            description =
                    "You state that every operation of every trainee is here, in turn; only then a CUSUM is shown.")
    boolean logComplete;

    ReportWorkbookCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        Path file = out;
        Path folder = csv;
        if (file == null && folder == null) {
            throw new InputException(
                    "where to write is not said", null, "name a file OUT.xlsx, or a folder with --csv");
        }
        try (Workspace workspace = console.open()) {
            WriteWorkbook writing = new WriteWorkbook(workspace);
            WriteWorkbook.Wish wish = new WriteWorkbook.Wish(language, shared, CompleteLogs.all(logComplete));
            if (file != null) {
                writing.write(file, wish, console.progress());
            }
            List<Path> files = folder == null ? List.of() : writing.writeCsv(folder, wish, console.progress());
            tell(file, files);
        }
        return 0;
    }

    private void tell(@Nullable Path file, List<Path> files) {
        if (console.isJson()) {
            console.printJson(Json.object(
                    "workbook",
                    file == null ? null : file.toAbsolutePath().toString(),
                    "csv",
                    files.stream().map(f -> f.toAbsolutePath().toString()).toList()));
            return;
        }
        if (file != null) {
            console.say("Wrote " + file.toAbsolutePath() + ".");
        }
        files.forEach(f -> console.say("Wrote " + f.toAbsolutePath() + "."));
    }
}
