package org.sideport.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.store.Workspace;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "init",
        description = {
            "Makes an empty workspace.",
            "",
            "With --database its store is a PostgreSQL database that many programs share, and DIR a folder that names"
                    + " it. Who makes the tables keeps them; the persons sign in with logins of their own. The login is"
                    + " PGUSER or in the URL, the password PGPASSWORD, in ~/.pgpass or asked for; never in the URL.",
            "",
            "Example: sideport workspace init unit --database 'jdbc:postgresql://db.example/eyes?sslmode=verify-full'"
        })
final class WorkspaceInitCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "DIR")
    Path dir;

    @Nullable
    @Option(
            names = "--database",
            paramLabel = "URL",
            description = "jdbc:postgresql://host/name; from another machine with ?sslmode=verify-full.")
    String database;

    WorkspaceInitCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = database == null
                ? console.workspaces().create(dir)
                : console.workspaces().create(dir, database)) {
            if (console.isJson()) {
                console.printJson(Json.object("workspace", workspace.dir().toString()));
            } else {
                console.say("Made the workspace " + workspace.dir() + ".");
            }
        }
        return 0;
    }
}
