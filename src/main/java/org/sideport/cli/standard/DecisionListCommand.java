package org.sideport.cli.standard;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.model.Decision;
import org.sideport.store.Workspace;
import org.sideport.workflow.Decisions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "list", description = "What panels decided about a trainee, oldest first.")
final class DecisionListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--trainee", paramLabel = "T", required = true, description = "Code of the trainee.")
    String trainee;

    DecisionListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<Decision> all = new Decisions(workspace, Day.clock()).of(trainee);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "decisions", all.stream().map(DecisionViews::json).toList()));
            } else if (all.isEmpty()) {
                console.say("No decision about " + trainee + " was recorded.");
            } else {
                DecisionViews.print(all, console);
            }
        }
        return 0;
    }
}
