package org.sideport.workflow.access;

import org.sideport.store.Stores;
import org.sideport.store.Workspace;

/** How a password is kept and compared. A database server with accounts of its own has another way than a file. */
public interface Credentials {

    /** Keeps a person's password, within a transaction. */
    void set(Stores stores, String code, char[] password);

    /**
     * Compares; takes as long for a code that nobody has.
     *
     * @param code exactly as it is stored, or one that nobody has
     */
    boolean matches(Workspace workspace, String code, char[] password);

    /** Argon2id in the store, at the usual cost. */
    static Credentials inStore() {
        return new StoredCredentials(new Argon2id(Argon2id.Cost.USUAL));
    }
}
