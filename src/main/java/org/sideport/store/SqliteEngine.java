package org.sideport.store;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.locks.ReentrantLock;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/** One SQLite file, held by one program at a time. */
final class SqliteEngine implements Engine {

    private static final int BUSY_MS = 5_000;

    private final Jdbi jdbi;
    private final Path file;
    private final WorkspaceLock lock;
    /** SQLite lets one connection write, and refuses another that has read meanwhile: so our own writers queue here. */
    private final ReentrantLock writing = new ReentrantLock(true);

    private SqliteEngine(Jdbi jdbi, Path file, WorkspaceLock lock) {
        this.jdbi = jdbi;
        this.file = file;
        this.lock = lock;
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
            SQLiteConfig config = new SQLiteConfig();
            config.enforceForeignKeys(true);
            config.setJournalMode(SQLiteConfig.JournalMode.WAL);
            config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
            config.setBusyTimeout(BUSY_MS);
            SQLiteDataSource source = new SQLiteDataSource(config);
            // as a URI, since the driver takes what follows a question mark in a plain path for settings
            source.setUrl("jdbc:sqlite:" + file.toUri());
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
            return new SqliteEngine(Jdbi.create(source), file, lock);
        } catch (FlywayException e) {
            lock.close();
            throw new InputException(
                    "the store cannot be opened: " + firstLine(e),
                    file.toString(),
                    "if a newer Sideport made it, use that one; if the file is damaged, put back a copy of it",
                    e);
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
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
    public <T> T write(HandleCallback<T, RuntimeException> work) {
        writing.lock();
        try {
            return jdbi.inTransaction(work);
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
        return new Caller.Anyone();
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
