package org.sideport.cli.standard;

import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.store.Workspace;
import org.sideport.workflow.DecisionFigures;
import org.sideport.workflow.DecisionView;
import org.sideport.workflow.Decisions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

@Command(
        name = "show",
        description = {
            "Lays before a panel what is known of a trainee: the signed marks, how sure their mean is, and the"
                    + " standard.",
            "Says \"not enough\" where the marks are too few. The program gives no verdict.",
            "Example: sideport decision show --trainee T03 --rubric phaco-competency"
        })
final class DecisionShowCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    private DecisionQuestion question = new DecisionQuestion();

    DecisionShowCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            DecisionView view = new Decisions(workspace, Day.clock()).show(question.question());
            if (console.isJson()) {
                Map<String, @Nullable Object> figures = DecisionFigures.of(view);
                figures.put("digest", DecisionFigures.digest(view));
                console.printJson(figures);
            } else {
                DecisionViews.print(view, console);
            }
        }
        return 0;
    }
}
