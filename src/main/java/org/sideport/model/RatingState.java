package org.sideport.model;

/** A draft may change; a signed rating never does: an amendment supersedes it and says why. */
public enum RatingState {
    DRAFT,
    SIGNED,
    SUPERSEDED;

    /** As written in files: lower case. */
    public String id() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }
}
