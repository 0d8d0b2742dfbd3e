package org.sideport.cli.console;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Arrays;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndexCache;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.store.Workspace;
import org.sideport.workflow.SignIn;
import org.sideport.workflow.Workspaces;
import org.sideport.workflow.access.Credentials;
import org.sideport.workflow.upkeep.KeepBackups;

/** What every command has at hand: where to write, and which workspace. One for each run of the program. */
public final class Console {

    private final PrintWriter out;
    private final PrintWriter err;
    private final Workspaces workspaces;
    private final Secrets secrets;
    private final boolean progressWanted;
    private boolean json;
    private @Nullable String person;
    private @Nullable Path workspace;

    /** From Java 22 on the launcher asks for the console that is absent where nobody watches. */
    @SuppressWarnings("SystemConsoleNull")
    public Console(PrintWriter out, PrintWriter err, Map<String, String> environment, Path home) {
        this.out = out;
        this.err = err;
        this.workspaces = new Workspaces(environment, home, Console::askPassword);
        this.secrets = new Secrets(environment);
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

    /** @param code of who signs in */
    public void signInAs(String code) {
        this.person = code;
    }

    /** Code of who signs in; {@code null} if nobody does. */
    public @Nullable String person() {
        return person;
    }

    public Secrets secrets() {
        return secrets;
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

    /**
     * Opens the workspace that the person means, signs in where people do, and copies its store if the last copy is older
     * than a day.
     *
     * @throws InputException if it cannot be opened, or the sign-in fails
     */
    public Workspace open() {
        Workspace opened = workspaces.open(workspace);
        try {
            Workspace own = signedIn(opened);
            copyIfDue(opened);
            return own;
        } catch (RuntimeException e) {
            opened.close();
            throw e;
        }
    }

    private void copyIfDue(Workspace opened) {
        try {
            new KeepBackups(opened, Clock.systemUTC()).ifDue(Progress.NONE);
        } catch (InputException e) {
            // the work that is asked for matters more
            note("No backup was made: " + e.getMessage());
        }
    }

    /** Opens the workspace without signing in, for what comes before that. */
    public Workspace openSignedOut() {
        return workspaces.open(workspace);
    }

    private Workspace signedIn(Workspace opened) {
        String code = person;
        if (opened.caller() instanceof Caller.Anyone) {
            if (code != null) {
                throw new InputException(
                        "nobody signs in to this workspace",
                        opened.dir().toString(),
                        "leave out --as, or add people first: sideport people add");
            }
            return opened;
        }
        if (code == null) {
            throw new InputException(
                    "people sign in to this workspace",
                    opened.dir().toString(),
                    "name yourself with --as CODE; the password is asked for, or taken from " + Secrets.PASSWORD);
        }
        char[] password = secrets.password("Password of " + code);
        try {
            SignIn.Outcome outcome = signIn(opened).signIn(code, password);
            if (outcome instanceof SignIn.Outcome.In in) {
                return in.workspace();
            }
            throw new InputException(
                    "the password of " + code + " was made by somebody else",
                    null,
                    "choose your own first: sideport people password --as " + code);
        } finally {
            Arrays.fill(password, '\0');
        }
    }

    /** Sign-in to a workspace. */
    public static SignIn signIn(Workspace opened) {
        return new SignIn(opened, Credentials.inStore(), Clock.systemUTC());
    }

    /** A line on standard error that is written over, where a person watches; else silent. */
    public Progress progress() {
        if (!progressWanted) {
            return Progress.NONE;
        }
        return new ProgressLine(err);
    }
}
