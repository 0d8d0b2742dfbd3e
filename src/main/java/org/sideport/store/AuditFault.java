package org.sideport.store;

/**
 * A place where the audit trail is not as it was written.
 *
 * @param line number of the line; of the first that is missing where the end was cut off
 */
public record AuditFault(long line, Kind kind, String what) {

    public enum Kind {
        /** The line's text does not fit its digest. */
        ALTERED,
        /** The line does not continue the one before it: one is missing, replaced or in another place. */
        BROKEN,
        /** The end is missing. */
        CUT
    }
}
