package org.sideport.model;

/** How phases were tagged, which decides whether idle time could be seen at all. */
public enum TaggingStyle {
    /** A phase lasts until the next one starts: pauses are hidden inside phases. */
    STARTS_ONLY,
    /** Each phase has its own start and end: what lies between is idle. */
    START_AND_END;

    /** As written in files: lower case. */
    public String id() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }
}
