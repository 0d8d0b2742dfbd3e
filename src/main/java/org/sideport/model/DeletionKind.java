package org.sideport.model;

import java.util.Locale;

/** Why a case was deleted. */
public enum DeletionKind {
    /** The consent was withdrawn. */
    WITHDRAWN,
    /** The consent was refused. */
    REFUSED,
    /** The day by which it had to be looked at again had come, and nothing spoke for keeping it. */
    RETENTION;

    /** As stored: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }
}
