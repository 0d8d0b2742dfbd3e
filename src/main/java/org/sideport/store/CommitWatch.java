package org.sideport.store;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/** For measuring: tells that another connection has committed to a workspace's file, and asks little of the machine for it. */
public final class CommitWatch implements AutoCloseable {

    private final Connection connection;
    private final Statement statement;

    /** @param workspace open, and not on a shared database */
    public CommitWatch(Workspace workspace) {
        try {
            connection = SqliteStore.source(
                            workspace.dir().resolve(Workspace.STORE_FILE), org.sqlite.SQLiteConfig.JournalMode.WAL)
                    .getConnection();
            statement = connection.createStatement();
        } catch (SQLException e) {
            throw new IllegalStateException("the store cannot be watched", e);
        }
    }

    /** Another number than before once something was committed (SQLite: {@code pragma data_version}). */
    public long version() {
        try (ResultSet row = statement.executeQuery("pragma data_version")) {
            return row.next() ? row.getLong(1) : -1;
        } catch (SQLException e) {
            throw new IllegalStateException("the store cannot be watched", e);
        }
    }

    @Override
    public void close() {
        try {
            connection.close();
        } catch (SQLException e) {
            throw new IllegalStateException("the store cannot be watched", e);
        }
    }
}
