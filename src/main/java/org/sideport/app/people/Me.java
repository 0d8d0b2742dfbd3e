package org.sideport.app.people;

import org.sideport.model.Caller;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * Who sits here, and what of the program is of use to them.
 *
 * @param caller on whose behalf the workspace is asked
 */
public record Me(Caller caller) {

    /** True if somebody signed in; false where nobody needs to. */
    public boolean signedIn() {
        return caller instanceof Caller.Person;
    }

    /** The own code; empty where nobody signs in. */
    public String code() {
        return caller.code();
    }

    /** True if it may be offered: with some case at least. */
    public boolean may(Permission permission) {
        return Access.may(caller, permission);
    }
}
