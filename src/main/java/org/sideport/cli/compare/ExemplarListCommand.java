package org.sideport.cli.compare;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.model.Exemplar;
import org.sideport.store.Workspace;
import org.sideport.workflow.Exemplars;
import picocli.CommandLine.Command;

@Command(
        name = "list",
        description = {
            "Lists the exemplars of each procedure; * marks the usual one.",
            "Example: sideport exemplar list --json"
        })
final class ExemplarListCommand implements Callable<Integer> {

    private final Console console;

    ExemplarListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<Exemplar> all = new Exemplars(workspace, Day.clock()).all();
            if (console.isJson()) {
                console.printJson(CompareViews.of(all));
            } else if (all.isEmpty()) {
                console.say(
                        "No case has been named as an exemplar: sideport exemplar add --case C --title TEXT --by A");
            } else {
                all.forEach(e -> console.say(CompareViews.line(e)));
            }
        }
        return 0;
    }
}
