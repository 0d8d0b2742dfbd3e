package org.sideport.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import javax.sql.DataSource;
import org.sideport.media.FileDigest;
import org.sideport.model.AuditHead;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * Copies a store while it is in use: SQLite's VACUUM INTO writes one consistent state
 * (https://www.sqlite.org/lang_vacuum.html). A copy is looked through before it gets its name.
 */
final class StoreCopy {

    /** Left free on the disk beside the copy, bytes. */
    private static final long SPARE = 16L << 20;

    private StoreCopy() {}

    /**
     * What a copy holds.
     *
     * @param sha256 of the file
     * @param size bytes
     * @param schema version of the store's tables
     * @param head where its audit trail ends; none before there was one
     */
    record Content(String sha256, long size, String schema, AuditHead head) {}

    /**
     * @param target must not exist; it does when this returns, else not
     * @throws InputException if there is no room, the store is damaged, or the target cannot be written
     */
    static Content write(DataSource source, Path target, Progress progress) {
        Path part = WholeFile.part(target);
        try {
            Files.deleteIfExists(part);
            try {
                progress.report(-1, "Copying the store");
                copy(source, part);
                progress.check();
                progress.report(-1, "Checking the copy");
                Content content = look(part, progress);
                try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
                    channel.force(true);
                }
                WholeFile.move(part, target);
                return content;
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the copy cannot be written: " + e.getMessage(),
                    target.toString(),
                    "check that the folder may be written to and the disk is not full",
                    e);
        } catch (SQLException e) {
            throw StoreFaults.explain(e, target, "the store was not copied");
        }
    }

    private static void copy(DataSource source, Path part) throws SQLException, IOException {
        try (Connection connection = source.getConnection()) {
            requireRoom(connection, part);
            try (PreparedStatement copy = connection.prepareStatement("vacuum into ?")) {
                copy.setString(1, part.toAbsolutePath().toString());
                copy.execute();
            }
        }
    }

    private static void requireRoom(Connection connection, Path part) throws SQLException, IOException {
        long needed = number(connection, "pragma page_count") * number(connection, "pragma page_size");
        Path folder = part.toAbsolutePath().getParent();
        if (folder == null) {
            return;
        }
        long free = Files.getFileStore(folder).getUsableSpace();
        if (free < needed + SPARE) {
            throw new InputException(
                    "there is no room for a copy of the store: it needs " + megabytes(needed + SPARE) + " MB, "
                            + megabytes(free) + " MB are free",
                    folder.toString(),
                    "free some space, or choose a place on another drive");
        }
    }

    private static long megabytes(long bytes) {
        return (bytes + (1 << 20) - 1) >> 20;
    }

    /**
     * Looks through a store that nobody has open.
     *
     * @throws DamagedStoreException if it is not sound
     */
    static Content look(Path file, Progress progress) throws SQLException {
        SQLiteConfig config = new SQLiteConfig();
        config.setReadOnly(true);
        SQLiteDataSource source = new SQLiteDataSource(config);
        source.setUrl("jdbc:sqlite:" + file.toUri());
        try (Connection connection = source.getConnection()) {
            List<String> faults = StoreHealth.faults(connection);
            if (!faults.isEmpty()) {
                throw new DamagedStoreException("the copy of the store is damaged: " + faults.get(0), file, null);
            }
            return new Content(
                    FileDigest.sha256(file, progress), Files.size(file), schema(connection), head(connection));
        } catch (IOException e) {
            throw new InputException("cannot be read: " + e.getMessage(), file.toString(), null, e);
        }
    }

    private static String schema(Connection connection) throws SQLException {
        try (Statement statement = connection.createStatement();
                var rows = statement.executeQuery(
                        "select version from flyway_schema_history where success order by installed_rank desc"
                                + " limit 1")) {
            return rows.next() ? rows.getString(1) : "0";
        }
    }

    private static AuditHead head(Connection connection) throws SQLException {
        if (number(connection, "select count(*) from sqlite_master where name = 'audit_event'") == 0) {
            return AuditHead.NONE;
        }
        long count = number(connection, "select count(*) from audit_event");
        try (Statement statement = connection.createStatement();
                var rows = statement.executeQuery("select digest from audit_event order by id desc limit 1")) {
            return new AuditHead(count, rows.next() ? rows.getString(1) : "");
        }
    }

    private static long number(Connection connection, String query) throws SQLException {
        try (Statement statement = connection.createStatement();
                var rows = statement.executeQuery(query)) {
            return rows.next() ? rows.getLong(1) : 0;
        }
    }
}
