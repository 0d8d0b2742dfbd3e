package org.sideport.store;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.locks.ReentrantLock;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.sideport.model.Caller;
import org.sqlite.SQLiteDataSource;

/** One SQLite file, held by one program at a time. */
final class SqliteEngine implements Engine {

    private final Jdbi jdbi;
    private final SQLiteDataSource source;
    private final Path file;
    private final WorkspaceLock lock;
    private final AuditHeadFile head;
    /** SQLite lets one connection write, and refuses another that has read meanwhile: so our own writers queue here. */
    private final ReentrantLock writing = new ReentrantLock(true);

    private SqliteEngine(Jdbi jdbi, SQLiteDataSource source, Path file, WorkspaceLock lock, AuditHeadFile head) {
        this.jdbi = jdbi;
        this.source = source;
        this.file = file;
        this.lock = lock;
        this.head = head;
    }

    /**
     * Opens the store of a folder, making or migrating it where needed.
     *
     * @throws InputException if another program has it open, or it cannot be read
     */
    static SqliteEngine open(Path dir) {
        Path file = dir.resolve(Workspace.STORE_FILE);
        WorkspaceLock lock = WorkspaceLock.take(dir);
        try {
            SQLiteDataSource source = new SqliteStore(file).open();
            return new SqliteEngine(Jdbi.create(source), source, file, lock, new AuditHeadFile(dir));
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    Jdbi jdbi() {
        return jdbi;
    }

    SQLiteDataSource source() {
        return source;
    }

    AuditHeadFile head() {
        return head;
    }

    static String firstLine(Exception e) {
        String text = String.valueOf(e.getMessage()).strip();
        return text.lines().findFirst().orElse(text);
    }

    @Override
    public <T> T read(HandleCallback<T, RuntimeException> work) {
        return jdbi.inTransaction(work);
    }

    @Override
    public <T> T write(Change<T> work) {
        writing.lock();
        try {
            AuditGrowth growth = new AuditGrowth();
            T result = jdbi.inTransaction(handle -> work.in(handle, growth));
            if (growth.lines() > 0) {
                head.grew(growth.lines(), growth.digest());
            }
            return result;
        } finally {
            writing.unlock();
        }
    }

    @Override
    public RuntimeException explain(JdbiException fault, String failed) {
        return StoreFaults.explain(fault, file, failed);
    }

    @Override
    public Caller caller() {
        boolean signInNeeded = jdbi.withHandle(handle -> new PeopleStore(handle).any());
        return signInNeeded ? new Caller.Nobody() : new Caller.Anyone();
    }

    @Override
    public Optional<Logins> logins() {
        return Optional.empty();
    }

    @Override
    public void close() {
        lock.close();
    }
}
