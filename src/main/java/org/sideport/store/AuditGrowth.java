package org.sideport.store;

/** What one transaction added to the audit trail. */
final class AuditGrowth {

    private long lines;
    private String digest = "";

    void add(String lastDigest) {
        lines++;
        digest = lastDigest;
    }

    long lines() {
        return lines;
    }

    /** Of the last line; empty if none was added. */
    String digest() {
        return digest;
    }
}
