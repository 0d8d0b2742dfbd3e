package org.sideport.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Plural;
import org.sideport.model.Procedure;
import org.sideport.rubric.FileCheck;
import org.sideport.rubric.Finding;
import org.sideport.rubric.ProcedureReader;
import org.sideport.workflow.Vocabularies;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "check",
        description = {
            "Finds every fault of a rubric or procedure file. Ends with 1 if there is an error.",
            "Example: sideport rubric check my-rubric.json"
        })
final class RubricCheckCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE")
    Path file;

    @Option(
            names = "--procedure",
            paramLabel = "FILE",
            description = "Procedure file whose phases the items may name; default: the shipped ones.")
    @Nullable
    Path procedure;

    RubricCheckCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        List<Procedure> known =
                procedure == null ? Vocabularies.shippedOnly().procedures() : List.of(ProcedureReader.read(procedure));
        List<Finding> findings = FileCheck.check(file, known);
        boolean errors = findings.stream().anyMatch(Finding::isError);
        if (console.isJson()) {
            console.printJson(Json.object(
                    "file",
                    file.toString(),
                    "ok",
                    !errors,
                    "findings",
                    findings.stream()
                            .map(f -> Json.object(
                                    "severity", f.severity().name().toLowerCase(Locale.ROOT),
                                    "path", f.path(),
                                    "line", f.line(),
                                    "column", f.column(),
                                    "text", f.text(),
                                    "remedy", f.remedy()))
                            .toList()));
        } else {
            findings.forEach(f -> console.say(file + ", " + f.place() + ": " + f.text() + " — " + f.remedy()));
            console.say(findings.isEmpty() ? file + ": no fault found" : Plural.of(findings.size(), "finding"));
        }
        return errors ? CommandTree.FINDING : 0;
    }
}
