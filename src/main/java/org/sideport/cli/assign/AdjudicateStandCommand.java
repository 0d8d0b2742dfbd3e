package org.sideport.cli.assign;

import java.time.Clock;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
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

    @Option(
            names = "--rubric",
            paramLabel = "ID",
            defaultValue = "phaco-competency",
            description = "Default: ${DEFAULT-VALUE}.")
    String rubric;

    AdjudicateStandCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Adjudication.Settled settled = new Adjudication(workspace, Clock.systemDefaultZone())
                    .letStand(agreed.code, rubric, assessor, agreed.by, agreed.why);
            AgreeOptions.show(console, settled.mark(), settled.score(), settled.standing());
        }
        return 0;
    }
}
