package org.sideport.cli.assign;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.RubricOption;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Adjudication;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "stand",
        description = {
            "Records that one assessor's marks stand. No mark is changed.",
            "Example: sideport adjudicate stand --case C-12 --assessor A2 --by P1 --why \"the third agrees with A2\""
        })
final class AdjudicateStandCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    AgreeOptions agreed = new AgreeOptions();

    @Option(names = "--assessor", paramLabel = "A", required = true, description = "Whose marks stand.")
    String assessor;

    @Mixin
    RubricOption rubric = new RubricOption();

    AdjudicateStandCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Adjudication.Settled settled = new Adjudication(workspace, Day.clock())
                    .letStand(agreed.code, rubric.id(), assessor, agreed.by, agreed.why);
            AgreeOptions.show(console, settled.mark(), settled.score(), settled.standing());
        }
        return 0;
    }
}
