package org.sideport.cli.assign;

import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Adjudication;
import org.sideport.workflow.assign.Adjudication.Disagreement;
import org.sideport.workflow.assign.Adjudication.Stage;
import picocli.CommandLine.Command;

@Command(
        name = "list",
        description = "Cases whose marks differ beyond the unit's limits. Exit code 1 if one waits for somebody.")
final class AdjudicateListCommand implements Callable<Integer> {

    private final Console console;

    AdjudicateListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<Disagreement> found = new Adjudication(workspace, Day.clock()).disagreements();
            if (console.isJson()) {
                console.printJson(Json.object(
                        "disagreements",
                        found.stream()
                                .map(d -> Json.object(
                                        "case", d.caseCode(),
                                        "rubric", d.rubric(),
                                        "shares", d.assessors(),
                                        "share_gap", d.shareGap(),
                                        "far_items", d.far(),
                                        "shared_items", d.shared(),
                                        "stage", d.stage().name().toLowerCase(Locale.ROOT)))
                                .toList()));
            } else if (found.isEmpty()) {
                console.say("No marks differ beyond the limits.");
            } else {
                TextTable table = new TextTable("Case", "Marks", ">Gap", ">Far items", "Next");
                for (Disagreement d : found) {
                    table.row(
                            d.caseCode(),
                            d.assessors().entrySet().stream()
                                    .map(e -> String.format(Locale.ROOT, "%s %.0f %%", e.getKey(), e.getValue() * 100))
                                    .collect(Collectors.joining(", ")),
                            String.format(Locale.ROOT, "%.3f", d.shareGap()),
                            d.far() + " of " + d.shared(),
                            next(d.stage()));
                }
                table.print(console::say);
            }
            return found.stream().anyMatch(d -> d.stage() != Stage.SETTLED) ? 1 : 0;
        }
    }

    private static String next(Stage stage) {
        return switch (stage) {
            case THIRD_WANTED -> "give it to a third: assign add --purpose third";
            case THIRD_OPEN -> "a third is at it";
            case TO_SETTLE -> "settle it: adjudicate stand, or agree";
            case SETTLED -> "settled";
        };
    }
}
