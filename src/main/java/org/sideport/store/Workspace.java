package org.sideport.store;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import org.jdbi.v3.core.JdbiException;
import org.sideport.model.Caller;
import org.sideport.model.InputException;

/**
 * A folder that holds cases, taggings and ratings in one SQLite file, which only one program at a time has open; or that names
 * the PostgreSQL database that holds them for many. Thread-safe: each call uses a connection of its own.
 */
public final class Workspace implements AutoCloseable {

    /** The file that makes a folder a workspace. */
    public static final String STORE_FILE = "sideport.db";

    private final Path dir;
    private final Engine engine;
    private final Caller caller;

    private Workspace(Path dir, Engine engine, Caller caller) {
        this.dir = dir;
        this.engine = engine;
        this.caller = caller;
    }

    /** The same workspace on behalf of someone; closing either closes both. */
    public Workspace as(Caller other) {
        return new Workspace(dir, engine, other);
    }

    /** On whose behalf it is asked. Just opened: anyone's, or nobody's where there are people who must sign in. */
    public Caller caller() {
        return caller;
    }

    /** After very much was written at once, which a database else tidies some minutes later; nothing on SQLite. */
    void tidied() {
        if (engine instanceof PostgresEngine postgres) {
            postgres.tidied();
        }
    }

    /** The persons' logins; none where the store keeps none, as SQLite does. */
    public Optional<Logins> logins() {
        return engine.logins();
    }

    /** True if the folder holds a store, or names the database that does. */
    public static boolean isWorkspace(Path dir) {
        return Files.isRegularFile(dir.resolve(STORE_FILE)) || StoreFile.isIn(dir);
    }

    /** True if the store of this folder is a database that others work in too. */
    public static boolean isShared(Path dir) {
        return StoreFile.isIn(dir);
    }

    /**
     * Makes an empty workspace; the folder may exist.
     *
     * @throws InputException if there is one already, or the folder cannot be written
     */
    public static Workspace create(Path dir) {
        makeFolder(dir);
        return openStore(dir, SqliteEngine::open);
    }

    /**
     * Makes a folder for a PostgreSQL database, and the tables in it if there are none. Who makes them keeps them.
     *
     * @param database {@code jdbc:postgresql://host/name…}
     * @throws InputException as {@link #create(Path)}, or the database cannot be reached or used
     */
    public static Workspace create(Path dir, String database, DatabaseLogin login) {
        DatabaseUrl url = DatabaseUrl.parse(database);
        makeFolder(dir);
        return openStore(dir, folder -> {
            PostgresEngine engine = PostgresEngine.open(url, login, true);
            StoreFile.write(folder, url);
            return engine;
        });
    }

    private static void makeFolder(Path dir) {
        if (isWorkspace(dir)) {
            throw new InputException(
                    "there is a workspace here already", dir.toString(), "open it, or choose another folder");
        }
        try {
            Files.createDirectories(dir);
        } catch (IOException e) {
            throw new InputException(
                    "the folder cannot be made: "
                            + (e instanceof FileAlreadyExistsException ? "a file is in the way" : e.getMessage()),
                    dir.toString(),
                    "choose a place that may be written to",
                    e);
        }
    }

    /** As {@link #open(Path, DatabaseLogin)}, signing in to a shared database as the environment says. */
    public static Workspace open(Path dir) {
        return open(dir, DatabaseLogin.of(System.getenv()));
    }

    /**
     * @param login who signs in where the store is a shared database
     * @throws InputException if there is none, another program has it open, or it cannot be read
     */
    public static Workspace open(Path dir, DatabaseLogin login) {
        if (!isWorkspace(dir)) {
            throw new InputException(
                    "this folder is no Sideport workspace",
                    dir.toString(),
                    "make one with: sideport workspace init \"" + dir + "\"");
        }
        if (StoreFile.isIn(dir)) {
            return openStore(dir, folder -> PostgresEngine.open(StoreFile.read(folder), login, false));
        }
        return openStore(dir, SqliteEngine::open);
    }

    private static Workspace openStore(Path folder, Function<Path, Engine> opener) {
        Path dir = folder.toAbsolutePath().normalize();
        Engine engine = opener.apply(dir);
        WorkspaceLog.writeTo(dir);
        Workspace opened = new Workspace(dir, engine, engine.caller());
        try {
            if (engine instanceof SqliteEngine sqlite) {
                opened.change(stores -> sqlite.head().opened(stores.handle, stores.audit()));
                opened.change(stores -> stores.ratings().sealOld());
            } else if (opened.caller() instanceof Caller.Anyone) {
                // who keeps a shared database is who brings it up to date
                opened.change(stores -> stores.ratings().sealOld());
            }
            return opened;
        } catch (RuntimeException e) {
            engine.close();
            throw e;
        }
    }

    /** Where what was measured of files is kept to save time; may be deleted whenever the workspace is closed. */
    public Path indexDir() {
        return indexDir(dir);
    }

    /** As {@link #indexDir()}, of a workspace that need not be open. */
    public static Path indexDir(Path workspace) {
        return workspace.resolve("index");
    }

    public Path dir() {
        return dir;
    }

    /** Where the sounds of spoken comments are. */
    public VoiceFolder voices() {
        return new VoiceFolder(dir);
    }

    /**
     * Backups of this workspace's store, and what its keeper needs.
     *
     * @throws InputException if the store is a shared database
     */
    public StoreKeeping keeping() {
        if (engine instanceof SqliteEngine sqlite) {
            return new StoreKeeping(this, sqlite.jdbi(), sqlite.source(), sqlite.head());
        }
        throw new InputException(
                "the store of this workspace is a shared database",
                dir.toString(),
                "whoever keeps that database copies and checks it, with the database's own tools such as pg_dump");
    }

    /** Runs a query on one consistent state. */
    public <T> T read(Function<Stores, T> work) {
        try {
            return engine.read(handle -> work.apply(new Stores(handle, dir, caller, new AfterCommit())));
        } catch (JdbiException e) {
            throw engine.explain(e, "the store cannot be read");
        }
    }

    /**
     * Changes the store as one transaction: all of it or, when {@code work} throws, nothing.
     *
     * @throws InputException if the disk is full, the file may not be written, or the database does not allow it
     * @throws DatabaseAwayException if the shared database cannot be reached
     */
    public <T> T write(Function<Stores, T> work) {
        try {
            return engine.write((handle, afterCommit) -> work.apply(new Stores(handle, dir, caller, afterCommit)));
        } catch (JdbiException e) {
            throw engine.explain(e, "nothing was saved");
        }
    }

    /** As {@link #write(Function)}, without a result. */
    public void change(Consumer<Stores> work) {
        write(stores -> {
            work.accept(stores);
            return true;
        });
    }

    @Override
    public void close() {
        WorkspaceLog.stop();
        engine.close();
    }
}
