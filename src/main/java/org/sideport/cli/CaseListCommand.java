package org.sideport.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CaseOverview;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "list", description = "Lists the cases.")
final class CaseListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--trainee", paramLabel = "T", description = "Only this trainee's.")
    String trainee = "";

    CaseListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<CaseOverview> cases = new CaseList(workspace)
                    .all().stream()
                            .filter(c -> trainee.isEmpty()
                                    || c.surgicalCase().trainee().equals(trainee))
                            .toList();
            if (console.isJson()) {
                console.printJson(
                        Json.object("cases", cases.stream().map(CaseViews::of).toList()));
                return 0;
            }
            if (cases.isEmpty()) {
                console.say(
                        trainee.isEmpty()
                                ? "No cases yet. Add one with: sideport case add --code C --trainee T --date ISO FILE..."
                                : "No cases of " + trainee + ".");
                return 0;
            }
            TextTable table = new TextTable("Case", "Trainee", "Date", ">Recording", "Tagged by", "Marks");
            for (CaseOverview c : cases) {
                SurgicalCase one = c.surgicalCase();
                Recording recording = one.recording();
                table.row(
                        one.code(),
                        one.trainee(),
                        one.date().toString(),
                        recording == null
                                ? "–"
                                : recording.duration().toClockText() + (c.mediaFound() ? "" : " (missing)"),
                        String.join(", ", c.annotators()),
                        String.join(
                                ", ", c.ratings().stream().map(CaseViews::brief).toList()));
            }
            table.print(console::say);
        }
        return 0;
    }
}
