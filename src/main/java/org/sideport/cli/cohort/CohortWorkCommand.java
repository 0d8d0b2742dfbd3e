package org.sideport.cli.cohort;

import java.util.EnumMap;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Rubric;
import org.sideport.store.Workspace;
import org.sideport.workflow.FollowCohort;
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
            "Example: sideport cohort work --json"
        })
final class CohortWorkCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--rubric",
            paramLabel = "R",
            defaultValue = "",
            description = "Id of the rubric; by default the one with most signed marks.")
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
            Rubric by = new FollowCohort(workspace, Day.clock()).rubric(rubric, version);
            List<OutstandingWork.Item> items = new OutstandingWork(workspace, Day.clock()).of(by.id(), version);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "rubric",
                        by.id(),
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
                console.say("By " + by.id() + " " + by.version() + ": " + counts(items));
                if (items.isEmpty()) {
                    return 0;
                }
                TextTable table = new TextTable("what", "case", "trainee", "who", "since");
                items.forEach(i -> table.row(
                        said(i.kind()),
                        i.caseCode(),
                        i.trainee(),
                        i.who().isEmpty() ? "–" : i.who(),
                        i.since().toString()));
                table.print(console::say);
            }
        }
        return 0;
    }

    private static String counts(List<OutstandingWork.Item> items) {
        return items.isEmpty()
                ? "nothing is missing or late."
                : items.stream()
                        .collect(Collectors.groupingBy(
                                OutstandingWork.Item::kind,
                                () -> new EnumMap<>(OutstandingWork.Kind.class),
                                Collectors.counting()))
                        .entrySet()
                        .stream()
                        .map(e -> e.getValue() + " × " + said(e.getKey()))
                        .collect(Collectors.joining(", "));
    }

    private static String said(OutstandingWork.Kind kind) {
        return switch (kind) {
            case OVERDUE -> "overdue";
            case DRAFT -> "marks not signed";
            case SELF_MARKS -> "own marks missing";
            case UNMARKED -> "assessor's marks missing";
            case UNTAGGED -> "tags missing";
        };
    }
}
