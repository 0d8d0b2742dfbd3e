package org.sideport.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Progress;
import org.sideport.store.Workspace;
import org.sideport.workflow.Workspaces;

/** What every command has at hand: where to write, and which workspace. One for each run of the program. */
final class Console {

    private final PrintWriter out;
    private final PrintWriter err;
    private final Workspaces workspaces;
    private final boolean progressWanted;
    private boolean json;
    private @Nullable Path workspace;

    /** From Java 22 on the launcher asks for the console that is absent where nobody watches. */
    @SuppressWarnings("SystemConsoleNull")
    Console(PrintWriter out, PrintWriter err, Map<String, String> environment, Path home) {
        this.out = out;
        this.err = err;
        this.workspaces = new Workspaces(environment, home);
        this.progressWanted = System.console() != null;
    }

    void useJson(boolean wanted) {
        this.json = wanted;
    }

    void useWorkspace(Path dir) {
        this.workspace = dir;
    }

    boolean isJson() {
        return json;
    }

    PrintWriter out() {
        return out;
    }

    PrintWriter err() {
        return err;
    }

    /** For people; with {@code --json} it goes to standard error, so that standard output holds JSON only. */
    void say(String text) {
        (json ? err : out).println(text);
    }

    /** A note beside the result. */
    void note(String text) {
        err.println(text);
    }

    void printJson(Object value) {
        out.println(Json.write(value));
    }

    Workspaces workspaces() {
        return workspaces;
    }

    @Nullable
    Path namedWorkspace() {
        return workspace;
    }

    /** Opens the workspace that the person means. */
    Workspace open() {
        return workspaces.open(workspace);
    }

    /** A line on standard error that is written over, where a person watches; else silent. */
    Progress progress() {
        if (!progressWanted) {
            return Progress.NONE;
        }
        return new ProgressLine(err);
    }
}
