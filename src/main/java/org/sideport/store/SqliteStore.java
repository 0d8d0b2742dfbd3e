package org.sideport.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.flywaydb.core.api.MigrationInfo;
import org.flywaydb.core.api.MigrationInfoService;
import org.sideport.model.InputException;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * Opens the store's file, and brings an older one up to date: a backup is made first, then a copy is brought up to date and
 * checked, then it takes the old one's place. Whatever happens on the way, the file is the old one or the new one.
 */
final class SqliteStore {

    private static final int BUSY_MS = 5_000;

    /** A store that is being made or brought up to date. */
    private static final String NEW = ".new";

    private final Path store;
    private final String[] locations;

    SqliteStore(Path store) {
        this(store, "classpath:org/sideport/store/migration/common", "classpath:org/sideport/store/migration/sqlite");
    }

    /** With other migrations, for tests. */
    SqliteStore(Path store, String... locations) {
        this.store = store;
        this.locations = locations.clone();
    }

    /**
     * The store, made if there is no file yet.
     *
     * @throws DamagedStoreException if the file is not whole
     * @throws InputException if a newer program made it, or it cannot be brought up to date
     */
    SQLiteDataSource open() {
        try {
            removeUnfinished();
            SchemaStamp stamp = SchemaStamp.of(locations);
            if (!Files.exists(store)) {
                make(stamp);
            } else {
                StoreHealth.requireWhole(store);
            }
            SQLiteDataSource source = source(store, SQLiteConfig.JournalMode.WAL);
            boolean known;
            try (Connection connection = source.getConnection()) {
                if (Files.size(store) <= StoreHealth.QUICK) {
                    StoreHealth.requireSoundPages(store, connection);
                }
                known = stamp.isOn(connection);
            }
            if (!known) {
                goThroughMigrations(source, stamp);
            }
            return source;
        } catch (IOException e) {
            throw new InputException(
                    "the store cannot be opened: " + e.getMessage(),
                    store.toString(),
                    "check that the folder may be written to and the disk is not full",
                    e);
        } catch (FlywayException e) {
            throw isDamage(e)
                    ? new DamagedStoreException("the store cannot be opened: " + firstLine(e), store, e)
                    : new InputException(
                            "the store cannot be opened: " + firstLine(e),
                            store.toString(),
                            "if another Sideport made it, use that one; else " + DamagedStoreException.remedy(store),
                            e);
        } catch (SQLException e) {
            throw StoreFaults.explain(e, store, "the store cannot be opened");
        }
    }

    private void goThroughMigrations(SQLiteDataSource source, SchemaStamp stamp) throws SQLException, IOException {
        Flyway flyway = flyway(source);
        MigrationInfoService info = flyway.info();
        requireNotNewer(info);
        if (info.pending().length > 0) {
            bringUpToDate(source, current(info));
        } else {
            flyway.validate();
        }
        try (Connection connection = source.getConnection()) {
            stamp.put(connection);
        }
    }

    private void removeUnfinished() throws IOException {
        for (String ending : List.of("", "-wal", "-shm", "-journal")) {
            Files.deleteIfExists(sibling(NEW + ending));
        }
    }

    private Path sibling(String ending) {
        return store.resolveSibling(store.getFileName() + ending);
    }

    private void make(SchemaStamp stamp) throws IOException, SQLException {
        Path made = sibling(NEW);
        SQLiteDataSource source = unfinished(made);
        flyway(source).migrate();
        try (Connection connection = source.getConnection()) {
            stamp.put(connection);
        }
        finish(made);
    }

    private void bringUpToDate(SQLiteDataSource old, String from) throws SQLException, IOException {
        Backups backups = new Backups(folder());
        Path kept = backups.beforeMigration(old, from, Instant.now());
        Path made = sibling(NEW);
        try {
            Files.copy(kept, made);
            SQLiteDataSource copy = unfinished(made);
            flyway(copy).migrate();
            try (Connection connection = copy.getConnection()) {
                List<String> faults = StoreHealth.faults(connection);
                if (!faults.isEmpty()) {
                    throw new SQLException(faults.get(0));
                }
            }
            leaveNoLog(old);
            finish(made);
        } catch (FlywayException | SQLException e) {
            removeUnfinished();
            throw new InputException(
                    "this workspace could not be brought up to date from version " + from + ": " + firstLine(e),
                    store.toString(),
                    "it stands as it was, and a copy of it is " + kept + "; use the Sideport that made it meanwhile,"
                            + " and report this",
                    e);
        }
    }

    private void finish(Path made) throws IOException {
        WholeFile.force(made);
        WholeFile.move(made, store);
    }

    /** The old file's log must be gone before another file takes its name, or it would be played into that one. */
    private void leaveNoLog(SQLiteDataSource old) throws SQLException, IOException {
        try (Connection connection = old.getConnection();
                Statement statement = connection.createStatement()) {
            statement.execute("pragma wal_checkpoint(truncate)");
            statement.execute("pragma journal_mode = delete");
        }
        Path log = sibling("-wal");
        if (Files.exists(log) && Files.size(log) > 0) {
            throw new SQLException("the log of the old store is still in use");
        }
        Files.deleteIfExists(log);
        Files.deleteIfExists(sibling("-shm"));
    }

    private Path folder() {
        Path folder = store.toAbsolutePath().getParent();
        if (folder == null) {
            throw new IllegalStateException("a store lies in a folder: " + store);
        }
        return folder;
    }

    private void requireNotNewer(MigrationInfoService info) {
        Arrays.stream(info.all())
                .filter(one -> one.getState().name().startsWith("FUTURE"))
                .map(MigrationInfo::getVersion)
                .reduce((a, b) -> b)
                .ifPresent(version -> {
                    throw new InputException(
                            "a newer Sideport made this workspace (version " + version
                                    + " of the store; this one knows " + known(info) + ")",
                            store.toString(),
                            "open it with that newer Sideport; nothing was changed");
                });
    }

    private static String known(MigrationInfoService info) {
        return Arrays.stream(info.all())
                .filter(one -> !one.getState().name().startsWith("FUTURE"))
                .map(one -> String.valueOf(one.getVersion()))
                .reduce("none", (a, b) -> b);
    }

    private static String current(MigrationInfoService info) {
        MigrationInfo current = info.current();
        return current == null ? "0" : String.valueOf(current.getVersion());
    }

    private Flyway flyway(SQLiteDataSource source) {
        return Flyway.configure()
                .dataSource(source)
                .locations(locations)
                .placeholders(Map.of("id", "id integer primary key"))
                // by default a store of a newer program would be opened, and written as if it were of this one
                .ignoreMigrationPatterns(new String[0])
                .load();
    }

    static SQLiteDataSource source(Path file, SQLiteConfig.JournalMode journal) {
        return source(file, journal, SQLiteConfig.SynchronousMode.FULL);
    }

    /** A file that is thrown away unless it gets finished: the disk is waited for once, at the end. */
    private static SQLiteDataSource unfinished(Path file) {
        return source(file, SQLiteConfig.JournalMode.MEMORY, SQLiteConfig.SynchronousMode.OFF);
    }

    private static SQLiteDataSource source(
            Path file, SQLiteConfig.JournalMode journal, SQLiteConfig.SynchronousMode waits) {
        SQLiteConfig config = new SQLiteConfig();
        config.enforceForeignKeys(true);
        config.setJournalMode(journal);
        config.setSynchronous(waits);
        config.setBusyTimeout(BUSY_MS);
        SQLiteDataSource source = new SQLiteDataSource(config);
        // as a URI, since the driver takes what follows a question mark in a plain path for settings
        source.setUrl("jdbc:sqlite:" + file.toUri());
        return source;
    }

    private static boolean isDamage(Throwable fault) {
        for (Throwable cause = fault; cause != null; cause = cause.getCause()) {
            if (cause instanceof SQLException sql && StoreFaults.isDamage(sql)) {
                return true;
            }
        }
        return false;
    }

    private static String firstLine(Exception e) {
        String text = String.valueOf(e.getMessage()).strip();
        return text.lines().findFirst().orElse(text);
    }
}
