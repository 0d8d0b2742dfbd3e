package org.sideport.cli.upkeep;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.KeepBackups;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "backup",
        description = {
            "Writes the workspace into one ZIP file: store, voices, own rubrics, settings. Recordings are not in it.",
            "Keep it on another drive; copies of the store from day to day are in the workspace's folder backups"
                    + " anyway."
        })
final class WorkspaceBackupCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--replace", description = "Write over an existing file.")
    boolean replace;

    @Parameters(paramLabel = "FILE", description = "Where to, such as unit-2026-03-09.zip.")
    Path file;

    WorkspaceBackupCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws IOException {
        if (Files.exists(file) && !replace) {
            throw new InputException(
                    "the file exists already", file.toString(), "choose another name, or add --replace");
        }
        try (Workspace workspace = console.open()) {
            new KeepBackups(workspace, Clock.systemUTC()).archive(file, console.progress());
        }
        long size = Files.size(file);
        if (console.isJson()) {
            console.printJson(Json.object("file", file.toString(), "size", size));
        } else {
            console.say("Backed up to " + file + " (" + ((size + 1023) / 1024) + " kB). It tells codes, marks and"
                    + " comments: keep it where only those come who may read them.");
        }
        return 0;
    }
}
