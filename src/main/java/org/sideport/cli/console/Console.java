package org.sideport.cli.console;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndexCache;
import org.sideport.model.Progress;
import org.sideport.store.Workspace;
import org.sideport.workflow.Workspaces;

/** What every command has at hand: where to write, and which workspace. One for each run of the program. */
public final class Console {

    private final PrintWriter out;
    private final PrintWriter err;
    private final Workspaces workspaces;
    private final boolean progressWanted;
    private boolean json;
    private @Nullable Path workspace;

    /** From Java 22 on the launcher asks for the console that is absent where nobody watches. */
    @SuppressWarnings("SystemConsoleNull")
    public Console(PrintWriter out, PrintWriter err, Map<String, String> environment, Path home) {
        this.out = out;
        this.err = err;
        this.workspaces = new Workspaces(environment, home, Console::askPassword);
        this.progressWanted = System.console() != null;
    }

    /** Only where a person sits at a terminal. */
    @SuppressWarnings("SystemConsoleNull")
    private static @Nullable String askPassword() {
        java.io.Console terminal = System.console();
        char[] typed = terminal == null ? null : terminal.readPassword("Password for the shared database: ");
        return typed == null ? null : new String(typed);
    }

    public void useJson(boolean wanted) {
        this.json = wanted;
    }

    public void useWorkspace(Path dir) {
        this.workspace = dir;
    }

    public boolean isJson() {
        return json;
    }

    public PrintWriter out() {
        return out;
    }

    public PrintWriter err() {
        return err;
    }

    /** For people; with {@code --json} it goes to standard error, so that standard output holds JSON only. */
    public void say(String text) {
        (json ? err : out).println(text);
    }

    /** A note beside the result. */
    public void note(String text) {
        err.println(text);
    }

    public void printJson(Object value) {
        out.println(Json.write(value));
    }

    public Workspaces workspaces() {
        return workspaces;
    }

    @Nullable
    public Path namedWorkspace() {
        return workspace;
    }

    /** Frame times kept in the workspace that the person means; {@code null} if there is none. */
    @Nullable
    public FrameIndexCache frameIndexes() {
        return workspaces.frameIndexes(workspace);
    }

    /** Opens the workspace that the person means. */
    public Workspace open() {
        return workspaces.open(workspace);
    }

    /** A line on standard error that is written over, where a person watches; else silent. */
    public Progress progress() {
        if (!progressWanted) {
            return Progress.NONE;
        }
        return new ProgressLine(err);
    }
}
