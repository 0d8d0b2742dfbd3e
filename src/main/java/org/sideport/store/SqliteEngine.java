package org.sideport.store;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
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

    private static final int MOST_CONNECTIONS = 32;

    private final HikariDataSource pool;
    private final Jdbi jdbi;
    private final SQLiteDataSource source;
    private final Path file;
    private final WorkspaceLock lock;
    private final AuditHeadFile head;
    /** SQLite lets one connection write, and refuses another that has read meanwhile: so our own writers queue here. */
    private final ReentrantLock writing = new ReentrantLock(true);

    /** Whether the log still holds what was deleted for good. */
    private boolean toErase;

    private SqliteEngine(SQLiteDataSource source, Path file, WorkspaceLock lock, AuditHeadFile head) {
        this.pool = pool(source);
        this.jdbi = Jdbi.create(pool);
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
            return new SqliteEngine(source, file, lock, new AuditHeadFile(dir));
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    /**
     * Connections that stay open: to open one takes longer than most of our work, and with the last one SQLite would put
     * its log away each time.
     */
    private static HikariDataSource pool(SQLiteDataSource source) {
        HikariConfig config = new HikariConfig();
        config.setDataSource(source);
        config.setMaximumPoolSize(MOST_CONNECTIONS);
        config.setMinimumIdle(1);
        config.setIdleTimeout(60_000);
        config.setMaxLifetime(0);
        config.setKeepaliveTime(0);
        config.setInitializationFailTimeout(-1);
        return new HikariDataSource(config);
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
            AfterCommit afterCommit = new AfterCommit();
            T result = jdbi.inTransaction(handle -> work.in(handle, afterCommit));
            if (afterCommit.lines() > 0) {
                head.grew(afterCommit.lines(), afterCommit.digest());
            }
            toErase |= afterCommit.hasErased();
            if (toErase) {
                toErase = !emptyLog();
            }
            return result;
        } finally {
            writing.unlock();
        }
    }

    /** @return false if somebody is still reading from the log */
    private boolean emptyLog() {
        return jdbi.withHandle(handle -> handle.createQuery("pragma wal_checkpoint(truncate)")
                .map((row, context) -> row.getInt("busy") == 0)
                .one());
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
        // what is being written is written to its end
        writing.lock();
        try {
            pool.close();
        } finally {
            writing.unlock();
            lock.close();
        }
    }
}
