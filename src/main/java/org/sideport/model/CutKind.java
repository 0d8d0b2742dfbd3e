package org.sideport.model;

import java.util.Locale;

/** Where time may be missing. */
public enum CutKind {
    /** the scene jumps inside a file */
    INSIDE_FILE,
    /** between one file and the next */
    BETWEEN_FILES,
    /** a person saw it */
    SEEN;

    /** As written in JSON and in the store: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }
}
