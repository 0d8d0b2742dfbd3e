package org.sideport.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/** The databases that the same tests run on. */
public enum TestEngine {
    SQLITE,
    POSTGRESQL;

    private static final class Template {
        /** Migrated once, then copied. */
        static final String URL = make();

        private static String make() {
            String url = TestPostgres.shared().newDatabase();
            PostgresEngine.open(DatabaseUrl.parse(url), TestPostgres.KEEPER, true)
                    .close();
            return url;
        }
    }

    public Workspace create(Path dir) {
        return this == SQLITE
                ? FreshWorkspace.in(dir)
                : Workspace.create(dir, TestPostgres.shared().copyOf(Template.URL), TestPostgres.KEEPER);
    }

    public Workspace open(Path dir) {
        return this == SQLITE ? Workspace.open(dir) : Workspace.open(dir, TestPostgres.KEEPER);
    }

    /** Runs one statement past the program, foreign keys on, as who keeps the store. */
    int raw(Path workspace, String sql) throws SQLException {
        try (Connection connection = connect(workspace);
                Statement statement = connection.createStatement()) {
            return statement.executeUpdate(sql);
        }
    }

    /** The first column of the first row as text. */
    String rawText(Path workspace, String query) throws SQLException {
        try (Connection connection = connect(workspace);
                Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(query)) {
            return rows.next() ? rows.getString(1) : "(no row)";
        }
    }

    private Connection connect(Path workspace) throws SQLException {
        return this == SQLITE
                ? DriverManager.getConnection(
                        "jdbc:sqlite:" + workspace.resolve(Workspace.STORE_FILE) + "?foreign_keys=true")
                : connect(workspace, TestPostgres.KEEPER);
    }

    /** A connection of somebody's to the database of a workspace, as plain SQL has it. */
    static Connection connect(Path workspace, DatabaseLogin login) throws SQLException {
        return DriverManager.getConnection(
                StoreFile.read(workspace).text() + "?currentSchema=sideport_shown,sideport",
                login.user(),
                login.password());
    }
}
