package org.sideport.store;

import org.sideport.model.InputException;

/** The shared database cannot be reached now; the same may work later. */
public final class DatabaseAwayException extends InputException {

    private static final long serialVersionUID = 1L;

    DatabaseAwayException(String what, String where, Throwable cause) {
        super(what, where, "check the network, or ask who keeps the database; then try again", cause);
    }
}
