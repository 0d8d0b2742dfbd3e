package org.sideport.store;

import org.sideport.model.InputException;

/** The shared database cannot be reached now; the same may work later. */
public final class DatabaseAwayException extends InputException {

    private static final long serialVersionUID = 1L;

    DatabaseAwayException(String what, String where, Throwable cause) {
        super(what, where, "check the network, or ask who keeps the database; then try again", cause);
    }

    private DatabaseAwayException(DatabaseAwayException cause, String kept) {
        super(
                "the database cannot be reached; what you did is kept on this computer (" + kept + ")",
                cause.where(),
                "go on: it is saved as soon as the database is back, at the latest when you open it again",
                cause);
    }

    /** The same, where the work is safe in a file meanwhile. */
    public DatabaseAwayException keptIn(String file) {
        return new DatabaseAwayException(this, file);
    }
}
