package org.sideport.store;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import java.util.function.Function;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * A folder that holds cases, taggings and ratings in one SQLite file. Only one program at a time has it open. Thread-safe:
 * each call uses a connection of its own.
 */
public final class Workspace implements AutoCloseable {

    /** The file that makes a folder a workspace. */
    public static final String STORE_FILE = "sideport.db";

    private static final int BUSY_MS = 5_000;

    private final Path dir;
    private final Jdbi jdbi;
    private final WorkspaceLock lock;
    /** SQLite lets one connection write, and refuses another that has read meanwhile: so our own writers queue here. */
    private final ReentrantLock writing;

    private final Caller caller;

    private Workspace(Path dir, Jdbi jdbi, WorkspaceLock lock, ReentrantLock writing, Caller caller) {
        this.dir = dir;
        this.jdbi = jdbi;
        this.lock = lock;
        this.writing = writing;
        this.caller = caller;
    }

    /** The same workspace on behalf of someone; closing either closes both. */
    public Workspace as(Caller other) {
        return new Workspace(dir, jdbi, lock, writing, other);
    }

    /** On whose behalf it is asked. Just opened: anyone's, or nobody's where there are people who must sign in. */
    public Caller caller() {
        return caller;
    }

    /** True if the folder holds a store. */
    public static boolean isWorkspace(Path dir) {
        return Files.isRegularFile(dir.resolve(STORE_FILE));
    }

    /**
     * Makes an empty workspace; the folder may exist.
     *
     * @throws InputException if there is one already, or the folder cannot be written
     */
    public static Workspace create(Path dir) {
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
        return openStore(dir);
    }

    /**
     * @throws InputException if there is none, another program has it open, or it cannot be read
     */
    public static Workspace open(Path dir) {
        if (!isWorkspace(dir)) {
            throw new InputException(
                    "this folder is no Sideport workspace",
                    dir.toString(),
                    "make one with: sideport workspace init \"" + dir + "\"");
        }
        requireContent(dir.resolve(STORE_FILE));
        return openStore(dir);
    }

    /** SQLite would take a file that lost its content for a new one, and the loss would go unseen. */
    private static void requireContent(Path store) {
        try {
            if (Files.size(store) > 0) {
                return;
            }
        } catch (IOException e) {
            throw new InputException("the store cannot be read: " + e.getMessage(), store.toString(), null, e);
        }
        throw new InputException(
                "the store is empty",
                store.toString(),
                "put back a copy of it; if there never was anything in it, delete the file and make the workspace"
                        + " anew");
    }

    private static Workspace openStore(Path folder) {
        Path dir = folder.toAbsolutePath().normalize();
        WorkspaceLock lock = WorkspaceLock.take(dir);
        try {
            SQLiteConfig config = new SQLiteConfig();
            config.enforceForeignKeys(true);
            config.setJournalMode(SQLiteConfig.JournalMode.WAL);
            config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
            config.setBusyTimeout(BUSY_MS);
            SQLiteDataSource source = new SQLiteDataSource(config);
            // as a URI, since the driver takes what follows a question mark in a plain path for settings
            source.setUrl("jdbc:sqlite:" + dir.resolve(STORE_FILE).toUri());
            Flyway.configure()
                    .dataSource(source)
                    .locations(
                            "classpath:org/sideport/store/migration/common",
                            "classpath:org/sideport/store/migration/sqlite")
                    .placeholders(Map.of("id", "id integer primary key"))
                    // by default a store of a newer program would be opened, and written as if it were of this one
                    .ignoreMigrationPatterns(new String[0])
                    .load()
                    .migrate();
            WorkspaceLog.writeTo(dir);
            Jdbi jdbi = Jdbi.create(source);
            boolean signInNeeded = jdbi.withHandle(handle -> new PeopleStore(handle).any());
            Caller first = signInNeeded ? new Caller.Nobody() : new Caller.Anyone();
            return new Workspace(dir, jdbi, lock, new ReentrantLock(true), first);
        } catch (FlywayException e) {
            lock.close();
            throw new InputException(
                    "the store cannot be opened: " + firstLine(e),
                    dir.resolve(STORE_FILE).toString(),
                    "if a newer Sideport made it, use that one; if the file is damaged, put back a copy of it",
                    e);
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    private static String firstLine(Exception e) {
        String text = String.valueOf(e.getMessage()).strip();
        return text.lines().findFirst().orElse(text);
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

    /** Runs a query on one consistent state. */
    public <T> T read(Function<Stores, T> work) {
        return inTransaction(work, "the store cannot be read");
    }

    /**
     * Changes the store as one transaction: all of it or, when {@code work} throws, nothing.
     *
     * @throws InputException if the disk is full or the file may not be written
     */
    public <T> T write(Function<Stores, T> work) {
        writing.lock();
        try {
            return inTransaction(work, "nothing was saved");
        } finally {
            writing.unlock();
        }
    }

    /** As {@link #write(Function)}, without a result. */
    public void change(Consumer<Stores> work) {
        write(stores -> {
            work.accept(stores);
            return true;
        });
    }

    private <T> T inTransaction(Function<Stores, T> work, String failed) {
        try {
            return jdbi.inTransaction(handle -> work.apply(new Stores(handle, dir, caller)));
        } catch (JdbiException e) {
            throw StoreFaults.explain(e, dir.resolve(STORE_FILE), failed);
        }
    }

    @Override
    public void close() {
        WorkspaceLog.stop();
        lock.close();
    }
}
