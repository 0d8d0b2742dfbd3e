package org.sideport.cli.upkeep;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Plural;
import org.sideport.workflow.upkeep.KeepBackups;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
        name = "restore",
        description = {
            "Makes a workspace out of a backup, in a new or empty folder, and checks it.",
            "FILE is what \"workspace backup\" wrote, or a copy of the store out of a workspace's folder backups."
        })
final class WorkspaceRestoreCommand implements Callable<Integer> {

    private static final int FINDING = 1;

    private final Console console;

    @Parameters(index = "0", paramLabel = "FILE")
    Path file;

    @Parameters(index = "1", paramLabel = "DIR")
    Path dir;

    WorkspaceRestoreCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        KeepBackups.Restored restored = KeepBackups.restore(file, dir, console.progress());
        if (console.isJson()) {
            console.printJson(Json.object(
                    "dir",
                    restored.dir().toString(),
                    "cases",
                    restored.cases(),
                    "audit_count",
                    restored.head().count(),
                    "audit_digest",
                    restored.head().digest().isEmpty() ? null : restored.head().digest(),
                    "problems",
                    restored.problems().stream()
                            .map(f -> Json.object(
                                    "kind",
                                    f.kind().id(),
                                    "subject",
                                    f.subject(),
                                    "what",
                                    f.what(),
                                    "remedy",
                                    f.remedy()))
                            .toList()));
        } else {
            console.say("Restored " + Plural.of(restored.cases(), "case") + " to " + restored.dir() + ".");
            restored.problems().forEach(f -> console.say("FINDING  " + f.subject() + ": " + f.what()));
            if (restored.problems().isEmpty()) {
                console.say("The audit trail and all signed ratings are as they were written.");
            }
        }
        return restored.problems().isEmpty() ? 0 : FINDING;
    }
}
