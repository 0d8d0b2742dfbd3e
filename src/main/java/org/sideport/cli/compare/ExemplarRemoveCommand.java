package org.sideport.cli.compare;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.model.Exemplar;
import org.sideport.store.Workspace;
import org.sideport.workflow.Exemplars;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "remove",
        description = {
            "Takes the name of exemplar away from a case; the case itself stays.",
            "Example: sideport exemplar remove --case C-03"
        })
final class ExemplarRemoveCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--annotator", paramLabel = "A", description = "By whose tags, where there are several.")
    @Nullable
    String annotator;

    ExemplarRemoveCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Exemplar gone = new Exemplars(workspace, Day.clock()).remove(code, annotator);
            if (console.isJson()) {
                console.printJson(CompareViews.of(gone));
            } else {
                console.say("No longer an exemplar: " + gone.caseCode());
            }
        }
        return 0;
    }
}
