package org.sideport.cli.exchange;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.RubricOption;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.MarkingForm;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "form",
        description = {
            "Writes a rubric as a workbook to be filled in without the program; read it back with: sideport rate"
                    + " import.",
            "",
            "Example: sideport rubric form --rubric phaco-competency --case D-017 --assessor A1 form.xlsx"
        })
public final class RubricFormCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    RubricOption rubric = new RubricOption();

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code = "";

    @Option(names = "--assessor", paramLabel = "A", required = true, description = "Code of the assessor.")
    String assessor = "";

    @Option(names = "--self", description = "The trainee marks the own case.")
    boolean self;

    @Option(
            names = "--language",
            paramLabel = "TAG",
            defaultValue = "en",
            description = "Language of the form, where the rubric has it: en, de. Default: ${DEFAULT-VALUE}.")
    String language = "en";

    @Parameters(paramLabel = "OUT.xlsx")
    Path out = Path.of("");

    public RubricFormCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            String warning = new MarkingForm(workspace).write(rubric.id(), code, assessor, self, language, out);
            if (!warning.isEmpty()) {
                console.note(warning);
            }
            if (console.isJson()) {
                console.printJson(Json.object("form", out.toAbsolutePath().toString()));
            } else {
                console.say("Wrote " + out.toAbsolutePath() + ".");
            }
        }
        return 0;
    }
}
