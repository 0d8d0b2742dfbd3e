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
        name = "add",
        description = {
            "Names a case as showing how its procedure is done. The first of a procedure is the usual one.",
            "Example: sideport exemplar add --case C-03 --annotator A1 --title \"Small pupil, no hurry\" --by A1"
        })
final class ExemplarAddCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--annotator", paramLabel = "A", description = "Whose tags count; else whoever tagged most.")
    @Nullable
    String annotator;

    @Option(names = "--title", paramLabel = "TEXT", required = true, description = "What it shows, in a few words.")
    String title;

    @Option(names = "--why", paramLabel = "TEXT", description = "Why it was chosen.")
    String why = "";

    @Option(names = "--by", paramLabel = "A", required = true, description = "Code of the person who names it.")
    String person;

    @Option(names = "--usual", description = "Make it the one that is offered first.")
    boolean usual;

    ExemplarAddCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Exemplar named = new Exemplars(workspace, Day.clock()).name(code, annotator, title, why, person, usual);
            if (console.isJson()) {
                console.printJson(CompareViews.of(named));
            } else {
                console.say(CompareViews.line(named));
            }
        }
        return 0;
    }
}
