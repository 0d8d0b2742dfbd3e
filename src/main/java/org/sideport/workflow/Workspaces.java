package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndexCache;
import org.sideport.model.InputException;
import org.sideport.store.DatabaseLogin;
import org.sideport.store.LoginRefusedException;
import org.sideport.store.Workspace;

/** Which workspace a person means: the one named, else the one used last, else a folder of the program's name at home. */
public final class Workspaces {

    private static final String DEFAULT_NAME = "Sideport";

    private final Path memory;
    private final Path home;
    private final DatabaseLogin login;
    private final Supplier<@Nullable String> passwords;

    /**
     * @param environment the process's variables: {@code SIDEPORT_CONFIG} or {@code XDG_CONFIG_HOME} may say where settings
     *     are kept
     * @param home the user's home folder
     */
    public Workspaces(Map<String, String> environment, Path home) {
        this(environment, home, () -> null);
    }

    /**
     * As {@link #Workspaces(Map, Path)}; {@code PGUSER} and {@code PGPASSWORD} say who signs in to a shared database.
     *
     * @param passwords asks the person for a password when the database refuses; {@code null} where nobody can be asked
     */
    public Workspaces(Map<String, String> environment, Path home, Supplier<@Nullable String> passwords) {
        this.login = DatabaseLogin.of(environment);
        this.passwords = passwords;
        String own = environment.getOrDefault("SIDEPORT_CONFIG", "");
        String shared = environment.getOrDefault("XDG_CONFIG_HOME", "");
        Path folder = !own.isBlank()
                ? Path.of(own)
                : (shared.isBlank() ? home.resolve(".config") : Path.of(shared)).resolve("sideport");
        this.memory = folder.resolve("last-workspace");
        this.home = home;
    }

    /** Where settings of the person, not of a workspace, are kept. */
    public Path settingsFolder() {
        Path parent = memory.getParent();
        return parent == null ? home : parent;
    }

    /**
     * @param named {@code null} if the person named none
     * @throws InputException if it cannot be opened
     */
    public Workspace open(@Nullable Path named) {
        if (named != null) {
            Workspace workspace = signIn(who -> Workspace.open(named, who));
            remember(workspace.dir());
            return workspace;
        }
        Path last = lastUsed();
        if (last != null && Workspace.isWorkspace(last)) {
            return signIn(who -> Workspace.open(last, who));
        }
        Path standard = home.resolve(DEFAULT_NAME);
        return Workspace.isWorkspace(standard)
                ? signIn(who -> Workspace.open(standard, who))
                : Workspace.create(standard);
    }

    /**
     * Frame times kept in the workspace that {@link #open} would open, without opening it: another program may have it
     * open, and nothing is made.
     *
     * @return {@code null} if there is no workspace
     */
    public @Nullable FrameIndexCache frameIndexes(@Nullable Path named) {
        Path dir = folder(named);
        return Workspace.isWorkspace(dir) ? new FrameIndexCache(Workspace.indexDir(dir)) : null;
    }

    /** The folder that {@link #open} opens, or would. */
    public Path folder(@Nullable Path named) {
        if (named != null) {
            return named;
        }
        Path last = lastUsed();
        return last != null && Workspace.isWorkspace(last) ? last : home.resolve(DEFAULT_NAME);
    }

    /** As {@link #open}, but makes the named one if the folder is new or empty. */
    public Workspace openOrCreate(@Nullable Path named) {
        if (named == null || Workspace.isWorkspace(named) || !isNewOrEmpty(named)) {
            return open(named);
        }
        return create(named);
    }

    /**
     * @throws InputException if there is one already
     */
    public Workspace create(Path named) {
        Workspace workspace = Workspace.create(named);
        remember(workspace.dir());
        return workspace;
    }

    /**
     * Makes a folder that names a PostgreSQL database, and the tables in it if there are none.
     *
     * @param database {@code jdbc:postgresql://host/name…}
     * @throws InputException if there is a workspace already, or the database cannot be used
     */
    public Workspace create(Path named, String database) {
        Workspace workspace = signIn(who -> Workspace.create(named, database, who));
        remember(workspace.dir());
        return workspace;
    }

    private Workspace signIn(Function<DatabaseLogin, Workspace> opening) {
        try {
            return opening.apply(login);
        } catch (LoginRefusedException refused) {
            String password = login.password() == null ? passwords.get() : null;
            if (password == null) {
                throw refused;
            }
            return opening.apply(new DatabaseLogin(login.user(), password));
        }
    }

    private static boolean isNewOrEmpty(Path dir) {
        if (!Files.exists(dir)) {
            return true;
        }
        try (var entries = Files.list(dir)) {
            return entries.findAny().isEmpty();
        } catch (IOException e) {
            return false;
        }
    }

    private @Nullable Path lastUsed() {
        try {
            return Files.exists(memory) ? Path.of(Files.readString(memory).strip()) : null;
        } catch (IOException | InvalidPathException e) {
            return null;
        }
    }

    /** The one used last from now on. */
    public void remember(Path dir) {
        try {
            Files.createDirectories(settingsFolder());
            Files.writeString(memory, dir + "\n");
        } catch (IOException e) {
            // Only a convenience: the workspace can be named each time.
            org.slf4j.LoggerFactory.getLogger(Workspaces.class).info("last workspace not remembered: {}", e.toString());
        }
    }
}
