package org.sideport.store;

import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.JdbiException;
import org.sideport.model.Caller;

/** The database below a workspace: SQLite in its folder, for one program; or PostgreSQL, for many. */
sealed interface Engine extends AutoCloseable permits SqliteEngine, PostgresEngine {

    /** Runs a transaction that sees one state throughout. */
    <T> T read(HandleCallback<T, RuntimeException> work);

    /** What changes something: gets the place where lines of the audit trail are counted. */
    @FunctionalInterface
    interface Change<T> {
        T in(Handle handle, AfterCommit afterCommit);
    }

    /** Runs a transaction that changes something. */
    <T> T write(Change<T> work);

    /**
     * What the database refused, in words that say how to mend it where a person can.
     *
     * @param failed what could not be done
     */
    RuntimeException explain(JdbiException fault, String failed);

    /** Whom the database knows the caller to be; {@code Anyone} where it knows no persons. */
    Caller caller();

    /** The persons' logins; none where the database has none of its own. */
    Optional<Logins> logins();

    @Override
    void close();
}
