package org.sideport.cli.assign;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Assignment;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.Assignments.Work;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "mine",
        description = {
            "What an assessor has to mark. A label stands for a case of which something is hidden: use it wherever a"
                    + " case's code is asked for.",
            "Example: sideport assign mine --assessor A2, then: sideport rate --case M-4K7 --assessor A2 RATING.json"
        })
final class AssignMineCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--assessor", paramLabel = "A", required = true, description = "Code of the assessor.")
    String assessor;

    AssignMineCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        LocalDate today = Day.today();
        try (Workspace workspace = console.open()) {
            List<Work> mine = new Assignments(workspace, Day.clock()).mine(assessor);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "assessor",
                        assessor,
                        "work",
                        mine.stream().map(w -> json(w, today)).toList()));
                return 0;
            }
            if (mine.isEmpty()) {
                console.say("Nothing to mark.");
                return 0;
            }
            TextTable table = new TextTable("Case", "For", "State", "Due");
            for (Work work : mine) {
                Assignment one = work.assignment();
                String state = one.state() == Assignment.State.OPEN
                        ? (work.begun() ? "begun" : "to mark") + (work.late() ? ", late" : "")
                        : "signed";
                table.row(work.code(), one.purpose().id(), state, Objects.toString(one.dueOn(), "–"));
            }
            table.print(console::say);
        }
        return 0;
    }

    private static Map<String, @Nullable Object> json(Work work, LocalDate today) {
        Map<String, @Nullable Object> json = new LinkedHashMap<>(AssignViews.of(work.assignment(), work.code(), today));
        json.put("procedure", work.procedure());
        json.put("begun", work.begun());
        return json;
    }
}
