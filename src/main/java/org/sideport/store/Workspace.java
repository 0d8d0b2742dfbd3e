package org.sideport.store;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import java.util.function.Function;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sqlite.SQLiteDataSource;

/**
 * A folder that holds cases, taggings and ratings in one SQLite file. Only one program at a time has it open. Thread-safe:
 * each call uses a connection of its own.
 */
public final class Workspace implements AutoCloseable {

    /** The file that makes a folder a workspace. */
    public static final String STORE_FILE = "sideport.db";

    private final Path dir;
    private final Jdbi jdbi;
    private final SQLiteDataSource source;
    private final WorkspaceLock lock;
    /** SQLite lets one connection write, and refuses another that has read meanwhile: so our own writers queue here. */
    private final ReentrantLock writing;

    private final AuditHeadFile head;
    private final Caller caller;

    private Workspace(
            Path dir,
            Jdbi jdbi,
            SQLiteDataSource source,
            WorkspaceLock lock,
            ReentrantLock writing,
            AuditHeadFile head,
            Caller caller) {
        this.dir = dir;
        this.jdbi = jdbi;
        this.source = source;
        this.lock = lock;
        this.writing = writing;
        this.head = head;
        this.caller = caller;
    }

    /** The same workspace on behalf of someone; closing either closes both. */
    public Workspace as(Caller other) {
        return new Workspace(dir, jdbi, source, lock, writing, head, other);
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
        return openStore(dir);
    }

    private static Workspace openStore(Path folder) {
        Path dir = folder.toAbsolutePath().normalize();
        WorkspaceLock lock = WorkspaceLock.take(dir);
        try {
            SQLiteDataSource source = new SqliteStore(dir.resolve(STORE_FILE)).open();
            WorkspaceLog.writeTo(dir);
            Jdbi jdbi = Jdbi.create(source);
            boolean signInNeeded = jdbi.withHandle(handle -> new PeopleStore(handle).any());
            Caller first = signInNeeded ? new Caller.Nobody() : new Caller.Anyone();
            Workspace opened =
                    new Workspace(dir, jdbi, source, lock, new ReentrantLock(true), new AuditHeadFile(dir), first);
            opened.change(stores -> opened.head.opened(stores.handle, stores.audit()));
            opened.change(stores -> stores.ratings().sealOld());
            return opened;
        } catch (RuntimeException e) {
            lock.close();
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

    /** Backups of this workspace's store, and what its keeper needs. */
    public StoreKeeping keeping() {
        return new StoreKeeping(this, jdbi, source, head);
    }

    /** Runs a query on one consistent state. */
    public <T> T read(Function<Stores, T> work) {
        return inTransaction(work, "the store cannot be read", new AuditGrowth());
    }

    /**
     * Changes the store as one transaction: all of it or, when {@code work} throws, nothing.
     *
     * @throws InputException if the disk is full or the file may not be written
     */
    public <T> T write(Function<Stores, T> work) {
        writing.lock();
        try {
            AuditGrowth growth = new AuditGrowth();
            T result = inTransaction(work, "nothing was saved", growth);
            if (growth.lines() > 0) {
                head.grew(growth.lines(), growth.digest());
            }
            return result;
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

    private <T> T inTransaction(Function<Stores, T> work, String failed, AuditGrowth growth) {
        try {
            return jdbi.inTransaction(handle -> work.apply(new Stores(handle, dir, caller, growth)));
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
