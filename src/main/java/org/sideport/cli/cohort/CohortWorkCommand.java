package org.sideport.cli.cohort;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.store.Workspace;
import org.sideport.workflow.OutstandingWork;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "work",
        sortOptions = false,
        description = {
            "What is still to be done by one rubric, the most pressing first: overdue (given, its day has passed),"
                    + " draft",
            "(marks not signed), self_marks (the trainee has not marked), unmarked (no assessor has signed), untagged.",
            "Example: sideport cohort work --rubric phaco-competency --json"
        })
final class CohortWorkCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--rubric", paramLabel = "R", required = true, description = "Id of the rubric.")
    String rubric = "";

    @Option(names = "--rubric-version", paramLabel = "V", description = "By default the one in use now.")
    @Nullable
    String version;

    CohortWorkCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<OutstandingWork.Item> items = new OutstandingWork(workspace, Day.clock()).of(rubric, version);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "rubric",
                        rubric,
                        "work",
                        items.stream()
                                .map(i -> Json.object(
                                        "kind", i.kind().id(),
                                        "case", i.caseCode(),
                                        "trainee", i.trainee(),
                                        "who", i.who().isEmpty() ? null : i.who(),
                                        "since", i.since().toString()))
                                .toList()));
            } else {
                TextTable table = new TextTable("what", "case", "trainee", "who", "since");
                items.forEach(i -> table.row(
                        i.kind().id(),
                        i.caseCode(),
                        i.trainee(),
                        i.who().isEmpty() ? "–" : i.who(),
                        i.since().toString()));
                table.print(console::say);
            }
        }
        return 0;
    }
}
