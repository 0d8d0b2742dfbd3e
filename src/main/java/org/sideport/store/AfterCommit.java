package org.sideport.store;

/** What is to be done once a transaction is on the disk: what it added to the audit trail, and what it took away. */
final class AfterCommit {

    private long lines;
    private String digest = "";
    private boolean erased;

    void add(String lastDigest) {
        lines++;
        digest = lastDigest;
    }

    /** What was deleted must not be found in the store's files any more. */
    void erase() {
        erased = true;
    }

    boolean hasErased() {
        return erased;
    }

    long lines() {
        return lines;
    }

    /** Of the last line; empty if none was added. */
    String digest() {
        return digest;
    }
}
