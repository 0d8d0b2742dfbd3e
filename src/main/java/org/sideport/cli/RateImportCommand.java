package org.sideport.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Rating;
import org.sideport.store.Workspace;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.exchange.MarkingForm;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "import",
        description = {
            "Reads a filled-in marking form (sideport rubric form) and stores its marks as a draft; it never signs."
                    + " Every",
            "fault is named by its cell, all at once; with a fault nothing is stored (exit code 2)."
        })
final class RateImportCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE.xlsx")
    Path file = Path.of("");

    @Option(names = "--replace", description = "Put the marks in the place of a draft that says something else.")
    boolean replace;

    RateImportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            MarkingForm.Taken taken = new MarkingForm(workspace).take(file, replace);
            MarkCase.Rated rated = taken.rated();
            Rating rating = taken.rating();
            if (rated == null || rating == null) {
                taken.faults().forEach(f -> console.note(f.text()));
                if (console.isJson()) {
                    console.printJson(Json.object(
                            "faults",
                            taken.faults().stream()
                                    .map(f -> Json.object("cell", f.cell(), "what", f.what(), "remedy", f.remedy()))
                                    .toList()));
                }
                return CommandTree.BAD_INPUT;
            }
            RateCommand.show(console, taken.head().caseCode(), taken.rubric(), rating, rated);
        }
        return 0;
    }
}
