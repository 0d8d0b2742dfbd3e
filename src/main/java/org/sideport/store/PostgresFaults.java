package org.sideport.store;

import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import org.jdbi.v3.core.JdbiException;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;

/** What PostgreSQL refuses, by its SQLSTATE (PostgreSQL manual, appendix A), in words that say how to mend it. */
final class PostgresFaults {

    private PostgresFaults() {}

    /** @param failed what could not be done */
    static RuntimeException explain(JdbiException fault, DatabaseUrl url, String failed) {
        for (Throwable cause = fault; cause != null; cause = cause.getCause()) {
            if (cause instanceof SQLException sql) {
                RuntimeException told = explain(sql, url, failed);
                return told == null ? fault : told;
            }
        }
        return fault;
    }

    /** @return {@code null} if it is nothing that a person can mend */
    static @Nullable RuntimeException explain(SQLException fault, DatabaseUrl url, String failed) {
        SQLException root = root(fault);
        String state = root.getSQLState() == null ? "" : root.getSQLState();
        // the driver says 08004 where the server asks for a password and there is none
        if (state.startsWith("28") || state.equals("08004")) {
            return new LoginRefusedException(url.toString(), fault);
        }
        if (state.startsWith("08") || state.startsWith("57P") || fault instanceof SQLTransientConnectionException) {
            return new DatabaseAwayException(failed + ": the database cannot be reached", url.toString(), fault);
        }
        String remedy =
                switch (state) {
                    case "42501", "44000" -> "your login may not do this: ask a programme director of your unit";
                    case "40001", "40P01" -> "somebody else saved at the same moment: try again";
                    case "23505" -> "somebody else, or another window, stored the same meanwhile: open it again";
                    case "53100" -> "the database's disk is full: tell who keeps it";
                    case "53300" -> "the database has too many visitors: try again in a moment";
                    case "25006" -> "this database is a copy that can only be read: name the one that is written to";
                    case "3D000" -> "there is no database of that name: make it, or mend the URL";
                    default -> null;
                };
        return remedy == null
                ? null
                : new InputException(failed + ": " + firstLine(root), url.toString(), remedy, fault);
    }

    /** The pool wraps what the driver says. */
    private static SQLException root(SQLException fault) {
        SQLException found = fault;
        for (Throwable cause = fault.getCause(); cause != null; cause = cause.getCause()) {
            if (cause instanceof SQLException sql) {
                found = sql;
            }
        }
        return found;
    }

    private static String firstLine(SQLException e) {
        return String.valueOf(e.getMessage()).lines().findFirst().orElse("");
    }
}
