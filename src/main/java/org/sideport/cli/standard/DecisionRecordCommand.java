package org.sideport.cli.standard;

import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.model.Decision;
import org.sideport.store.Workspace;
import org.sideport.workflow.Decisions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "record",
        description = {
            "Keeps what a panel decided, in its own words, with the figures it had before it. It cannot be changed"
                    + " later.",
            "Example: sideport decision record --trainee T03 --rubric phaco-competency --by A1,A2",
            "  --text \"Goes on under supervision; look again after 5 cases\""
        })
final class DecisionRecordCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    private DecisionQuestion question = new DecisionQuestion();

    @Option(names = "--text", paramLabel = "TEXT", required = true, description = "The decision in the panel's words.")
    String text;

    @Option(
            names = "--by",
            paramLabel = "A,...",
            split = ",",
            required = true,
            hideParamSyntax = true,
            description = "Codes of the panel.")
    List<String> by;

    @Option(names = "--on", paramLabel = "DATE", description = "Day of the decision; by default today.")
    @Nullable
    LocalDate on;

    @Option(
            names = "--shown",
            paramLabel = "DIGEST",
            description = "Digest of the figures looked at (decision show --json): refused if they have changed.")
    @Nullable
    String shown;

    DecisionRecordCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Decision decision = new Decisions(workspace, Day.clock())
                    .record(question.question(), text, by, on == null ? Day.today() : on, shown);
            if (console.isJson()) {
                console.printJson(DecisionViews.json(decision));
            } else {
                DecisionViews.print(List.of(decision), console);
            }
        }
        return 0;
    }
}
