package org.sideport.cli.assign;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Assignment;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Assignments;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "list", description = "Lists assignments: open, late, done. For directors.")
final class AssignListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--assessor", paramLabel = "A", description = "Only those of this assessor.")
    @Nullable
    String assessor;

    @Option(names = "--state", paramLabel = "STATE", description = "Only open, late, done or withdrawn ones.")
    String state = "";

    AssignListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        LocalDate today = LocalDate.now();
        try (Workspace workspace = console.open()) {
            List<Assignment> all = new Assignments(workspace, Clock.systemDefaultZone())
                    .all().stream()
                            .filter(a -> assessor == null || a.assessor().equals(assessor))
                            .filter(a -> state.isEmpty()
                                    || a.state().id().equals(state)
                                    || (state.equals("late") && a.isLate(today)))
                            .toList();
            if (console.isJson()) {
                console.printJson(Json.object(
                        "assignments",
                        all.stream()
                                .map(a -> AssignViews.of(a, a.caseCode(), today))
                                .toList()));
                return 0;
            }
            if (all.isEmpty()) {
                console.say("No assignments. Give cases with: sideport assign add --assessor A --case C");
                return 0;
            }
            TextTable table = new TextTable("Case", "Assessor", "For", "Label", "State", "Due");
            for (Assignment one : all) {
                table.row(
                        one.caseCode(),
                        one.assessor(),
                        one.purpose().id(),
                        one.isBlinded() ? one.label() : "–",
                        one.isLate(today) ? "open, late" : one.state().id(),
                        Objects.toString(one.dueOn(), "–"));
            }
            table.print(console::say);
        }
        return 0;
    }
}
