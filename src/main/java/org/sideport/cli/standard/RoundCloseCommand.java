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
        name = "close",
        description = {
            "Closes a round: its points are frozen, and all may see them.",
            "Example: sideport standard round close --round phaco-competency --note \"Rhexis was discussed longest\""
        })
final class RoundCloseCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--round",
            paramLabel = "R",
            required = true,
            description = "The rubric's id, for its newest round, or a round's id.")
    String round;

    @Option(
            names = "--leave-out",
            paramLabel = "A,...",
            split = ",",
            hideParamSyntax = true,
            description = "Judges who have not finished and shall not count.")
    List<String> leaveOut = List.of();

    @Option(names = "--note", paramLabel = "TEXT", description = "What was discussed.")
    String note = "";

    RoundCloseCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            StandardRounds.View view = new StandardRounds(workspace, Day.clock()).close(round, leaveOut, note);
            if (console.isJson()) {
                console.printJson(RoundViews.json(view));
            } else {
                RoundViews.print(view, console);
            }
        }
        return 0;
    }
}
