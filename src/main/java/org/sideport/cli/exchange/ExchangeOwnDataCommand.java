package org.sideport.cli.exchange;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.ExportOwnData;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "own-data",
        description = {
            "Writes all that the store holds about one trainee, for that trainee: JSON and CSV in a ZIP, without"
                    + " recordings,",
            "and with nothing of anybody else's cases.",
            "",
            "Example: sideport exchange own-data --trainee T03 T03.zip"
        })
final class ExchangeOwnDataCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--trainee", paramLabel = "T", required = true, description = "Code of the trainee.")
    String trainee = "";

    @Option(names = "--replace", description = "Replace the file if it exists.")
    boolean replace;

    @Parameters(paramLabel = "OUT.zip")
    Path out = Path.of("");

    ExchangeOwnDataCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (Files.exists(out) && !replace) {
            throw new InputException(
                    "the file exists already", out.toString(), "choose another name, or add --replace");
        }
        try (Workspace workspace = console.open()) {
            int cases = new ExportOwnData(workspace).export(trainee, out);
            if (console.isJson()) {
                console.printJson(
                        Json.object("file", out.toAbsolutePath().toString(), "trainee", trainee, "cases", cases));
            } else {
                console.say("Wrote " + out.toAbsolutePath() + ": " + Plural.of(cases, "case") + ".");
            }
        }
        return 0;
    }
}
