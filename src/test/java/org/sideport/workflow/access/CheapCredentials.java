package org.sideport.workflow.access;

/** Real Argon2id at a cost that tests can pay many times. */
public final class CheapCredentials {

    private CheapCredentials() {}

    public static Credentials make() {
        return new StoredCredentials(new Argon2id(new Argon2id.Cost(64, 1, 1)));
    }
}
