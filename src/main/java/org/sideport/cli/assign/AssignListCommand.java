package org.sideport.cli.assign;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
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
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "list", description = "Lists assignments: open, late, done. For directors.")
final class AssignListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--assessor", paramLabel = "A", description = "Only those of this assessor.")
    @Nullable
    String assessor;

    @Option(names = "--state", paramLabel = "STATE", description = "Only one of: ${COMPLETION-CANDIDATES}.")
    @Nullable
    Shown state;

    /** What can be asked for; late ones are open too. */
    enum Shown {
        OPEN,
        LATE,
        DONE,
        WITHDRAWN;

        boolean covers(Assignment one, LocalDate today) {
            return this == LATE ? one.isLate(today) : one.state().name().equals(name());
        }

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    AssignListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        LocalDate today = Day.today();
        try (Workspace workspace = console.open()) {
            List<Assignment> all = new Assignments(workspace, Day.clock())
                    .all().stream()
                            .filter(a -> assessor == null || a.assessor().equals(assessor))
                            .filter(a -> state == null || state.covers(a, today))
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
