package org.sideport.model;

/**
 * Where an audit trail ends: kept outside of it too, so that a tail that was cut off is missed.
 *
 * @param count number of lines
 * @param digest of the last line; empty where there is none
 */
public record AuditHead(long count, String digest) {

    public static final AuditHead NONE = new AuditHead(0, "");
}
