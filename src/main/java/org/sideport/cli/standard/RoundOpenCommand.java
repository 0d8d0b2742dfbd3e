package org.sideport.cli.standard;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.store.Workspace;
import org.sideport.workflow.StandardRounds;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "open",
        description = {
            "Opens the next round of judges for a rubric as it is now.",
            "Example: sideport standard round open --rubric phaco-competency --judges A1,A2,A3,A4"
        })
final class RoundOpenCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--rubric", paramLabel = "R", required = true, description = "Id of the rubric.")
    String rubric;

    @Option(
            names = "--judges",
            paramLabel = "A,...",
            split = ",",
            required = true,
            hideParamSyntax = true,
            description = "Codes of the judges: at least 2, better about 10.")
    List<String> judges;

    @Option(names = "--note", paramLabel = "TEXT", description = "What the panel agreed beforehand.")
    String note = "";

    RoundOpenCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            StandardRounds.View view = new StandardRounds(workspace, Day.clock()).open(rubric, judges, note);
            if (console.isJson()) {
                console.printJson(RoundViews.json(view));
            } else {
                RoundViews.print(view, console);
            }
        }
        return 0;
    }
}
