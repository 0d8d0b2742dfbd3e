package org.sideport.cli.upkeep;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.AuditEvent;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.AuditTrail;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "list",
        description = {
            "Lists who did what when, in the order in which it was done.",
            "The order is that of the lines; the times are those of the computers' clocks, which may have been wrong."
        })
final class AuditListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", description = "Only what was done to this case.")
    @Nullable
    String code;

    AuditListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<AuditEvent> lines = new AuditTrail(workspace).lines(code);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "lines",
                        lines.stream()
                                .map(e -> Json.object(
                                        "line", e.id(),
                                        "at", e.at(),
                                        "who", e.who().isEmpty() ? null : e.who(),
                                        "deed", e.deed(),
                                        "subject", e.subject(),
                                        "before", e.before().isEmpty() ? null : e.before(),
                                        "after", e.after().isEmpty() ? null : e.after(),
                                        "digest", e.digest()))
                                .toList()));
                return 0;
            }
            TextTable table = new TextTable(">line", "at", "who", "deed", "subject", "before", "after");
            lines.forEach(e -> table.row(
                    Long.toString(e.id()),
                    e.at(),
                    e.who().isEmpty() ? "–" : e.who(),
                    e.deed(),
                    e.subject(),
                    e.before(),
                    e.after()));
            table.print(console::say);
            console.say(Plural.of(lines.size(), "line") + ".");
        }
        return 0;
    }
}
