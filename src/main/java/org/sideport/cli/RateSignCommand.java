package org.sideport.cli;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.RubricOption;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.MarkCase;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(name = "sign", description = "Signs a complete draft: from then on it cannot be changed.")
final class RateSignCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--assessor", paramLabel = "A", required = true, description = "Code of the assessor.")
    String assessor;

    @Option(names = "--self", description = "The trainee's mark of the own case.")
    boolean self;

    @Mixin
    RubricOption rubric = new RubricOption();

    RateSignCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            MarkCase.Rated rated = new MarkCase(workspace).sign(code, rubric.id(), assessor, self);
            if (!rated.warning().isEmpty()) {
                console.note(rated.warning());
            }
            if (console.isJson()) {
                console.printJson(Json.object(
                        "id",
                        rated.id(),
                        "case",
                        code,
                        "assessor",
                        assessor,
                        "self",
                        self,
                        "state",
                        rated.state().id(),
                        "score",
                        ScoreViews.of(rated.score())));
            } else {
                console.say("Signed: rating " + rated.id() + " of case " + code + " by " + assessor + ", "
                        + Words.percent(rated.score().share()) + " of the applicable maximum on "
                        + Plural.of(rated.score().marked(), "item") + ".");
            }
        }
        return 0;
    }
}
