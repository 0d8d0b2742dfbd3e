package org.sideport.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Optional;
import java.util.concurrent.locks.ReentrantLock;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.sideport.model.Caller;
import org.slf4j.LoggerFactory;
import org.sqlite.SQLiteDataSource;

/** One SQLite file, held by one program at a time. */
final class SqliteEngine implements Engine {

    private final Jdbi jdbi;
    private final SQLiteDataSource source;
    private final Path file;
    private final WorkspaceLock lock;
    private final AuditHeadFile head;
    /**
     * Open and idle as long as the store is: with the last connection SQLite would fold its log into the file, after each
     * transaction.
     */
    private final Connection held;

    /** SQLite lets one connection write, and refuses another that has read meanwhile: so our own writers queue here. */
    private final ReentrantLock writing = new ReentrantLock(true);

    private SqliteEngine(
            Jdbi jdbi, SQLiteDataSource source, Path file, WorkspaceLock lock, AuditHeadFile head, Connection held) {
        this.held = held;
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
            return new SqliteEngine(Jdbi.create(source), source, file, lock, new AuditHeadFile(dir), hold(source));
        } catch (SQLException e) {
            lock.close();
            throw StoreFaults.explain(e, file, "the store cannot be opened");
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    /** A connection that has read something, since SQLite opens its log no sooner. */
    private static Connection hold(SQLiteDataSource source) throws SQLException {
        Connection held = source.getConnection();
        try (Statement statement = held.createStatement()) {
            statement.executeQuery("select count(*) from sqlite_master").close();
        } catch (SQLException e) {
            held.close();
            throw e;
        }
        return held;
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
        try {
            held.close();
        } catch (SQLException e) {
            // what was committed is in the log, which the next opening finds
            LoggerFactory.getLogger(SqliteEngine.class).warn("the store was not closed: {}", e.toString());
        }
        lock.close();
    }
}
