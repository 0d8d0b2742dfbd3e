package org.sideport.cli.standard;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.store.Workspace;
import org.sideport.workflow.StandardRounds;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "show",
        description = {
            "Shows a round, or all of them; with --judge that judge's own sheet.",
            "Example: sideport standard round show --round phaco-competency"
        })
final class RoundShowCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--round", paramLabel = "R", description = "The rubric's id, or a round's id; else all rounds.")
    @Nullable
    String round;

    @Option(names = "--judge", paramLabel = "A", description = "Code of the judge whose sheet is to be shown.")
    @Nullable
    String judge;

    RoundShowCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            StandardRounds rounds = new StandardRounds(workspace, Day.clock());
            if (round != null && judge != null) {
                StandardRounds.Sheet sheet = rounds.sheet(round, judge);
                if (console.isJson()) {
                    console.printJson(RoundViews.json(sheet));
                } else {
                    RoundViews.print(sheet, console);
                }
                return 0;
            }
            if (round != null) {
                StandardRounds.View view = rounds.show(round);
                if (console.isJson()) {
                    console.printJson(RoundViews.json(view));
                } else {
                    RoundViews.print(view, console);
                }
                return 0;
            }
            List<StandardRounds.View> all = rounds.all();
            if (console.isJson()) {
                console.printJson(
                        Json.object("rounds", all.stream().map(RoundViews::json).toList()));
            } else if (all.isEmpty()) {
                console.say("No round was opened yet: sideport standard round open --rubric R --judges A1,A2");
            } else {
                all.forEach(view -> RoundViews.print(view, console));
            }
        }
        return 0;
    }
}
