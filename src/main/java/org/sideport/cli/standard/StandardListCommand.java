package org.sideport.cli.standard;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.model.Standard;
import org.sideport.store.Workspace;
import org.sideport.workflow.DecisionFigures;
import org.sideport.workflow.Standards;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "list", description = "Lists the standards that were agreed, superseded ones too.")
final class StandardListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--rubric", paramLabel = "R", description = "Those of one rubric only.")
    @Nullable
    String rubric;

    StandardListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<Standard> all = new Standards(workspace, Day.clock())
                    .all().stream()
                            .filter(s -> rubric == null || s.rubric().equals(rubric))
                            .toList();
            if (console.isJson()) {
                console.printJson(Json.object(
                        "standards", all.stream().map(DecisionFigures::standard).toList()));
            } else if (all.isEmpty()) {
                console.say("No standard has been agreed: see sideport standard set --help");
            } else {
                all.forEach(standard -> StandardViews.print(standard, console));
            }
        }
        return 0;
    }
}
