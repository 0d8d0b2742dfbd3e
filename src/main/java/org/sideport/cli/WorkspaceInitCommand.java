package org.sideport.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.store.Workspace;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(name = "init", description = "Makes an empty workspace.")
final class WorkspaceInitCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "DIR")
    Path dir;

    WorkspaceInitCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.workspaces().create(dir)) {
            if (console.isJson()) {
                console.printJson(Json.object("workspace", workspace.dir().toString()));
            } else {
                console.say("Made the workspace " + workspace.dir() + ".");
            }
        }
        return 0;
    }
}
