package org.sideport.cli.standard;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.model.Standard;
import org.sideport.store.Workspace;
import org.sideport.workflow.DecisionFigures;
import org.sideport.workflow.Standards;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(name = "show", description = "Shows a standard as it was agreed.")
final class StandardShowCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "ID", description = "Its id, or enough of the beginning to tell it.")
    String id;

    StandardShowCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Standard standard = new Standards(workspace, Day.clock()).get(id);
            if (console.isJson()) {
                console.printJson(DecisionFigures.standard(standard));
            } else {
                StandardViews.print(standard, console);
                console.say(StandardViews.CAUTION);
            }
        }
        return 0;
    }
}
