package org.sideport.store;

import org.sideport.model.InputException;

/** A shared database does not take the name or the password; with others it may. */
public final class LoginRefusedException extends InputException {

    private static final long serialVersionUID = 1L;

    LoginRefusedException(String where, Throwable cause) {
        super(
                "the database refuses this login",
                where,
                "name your code as PGUSER or with ?user= in the URL, and your password as PGPASSWORD, in ~/.pgpass or"
                        + " when asked",
                cause);
    }
}
