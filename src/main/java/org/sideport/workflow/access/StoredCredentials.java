package org.sideport.workflow.access;

import org.sideport.store.PeopleStore;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;

/** Argon2id in the table of people. */
final class StoredCredentials implements Credentials {

    private final Argon2id hashing;

    StoredCredentials(Argon2id hashing) {
        this.hashing = hashing;
    }

    @Override
    public void set(Stores stores, String code, char[] password) {
        stores.people().setPassword(code, hashing.hash(password));
    }

    @Override
    public boolean matches(Workspace workspace, String code, char[] password) {
        String kept = workspace
                .read(stores -> stores.people().secret(code))
                .map(PeopleStore.Secret::password)
                .orElse("");
        boolean same = hashing.matches(password, kept);
        if (same && hashing.isOld(kept)) {
            String dearer = hashing.hash(password);
            workspace.change(stores -> stores.people().setPassword(code, dearer));
        }
        return same;
    }
}
