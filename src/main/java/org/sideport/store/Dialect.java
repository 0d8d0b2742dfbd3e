package org.sideport.store;

import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.config.JdbiConfig;

/** The few places where a query differs between the two databases; SQLite unless said otherwise. */
public final class Dialect implements JdbiConfig<Dialect> {

    private boolean postgresql;

    /** For Jdbi, which makes it. */
    public Dialect() {}

    static Dialect of(Handle handle) {
        return handle.getConfig(Dialect.class);
    }

    void setPostgresql() {
        postgresql = true;
    }

    /** True where the database decides itself who sees what, row by row. */
    boolean hasRowRules() {
        return postgresql;
    }

    /**
     * Behind a query: nobody else changes the rows called {@code r} before this transaction ends. SQLite needs no word for
     * it, since one transaction writes at a time.
     */
    String lockedR() {
        return postgresql ? " for update of r" : "";
    }

    @Override
    public Dialect createCopy() {
        Dialect copy = new Dialect();
        copy.postgresql = postgresql;
        return copy;
    }
}
