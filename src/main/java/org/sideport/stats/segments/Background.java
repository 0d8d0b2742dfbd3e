package org.sideport.stats.segments;

/** What becomes of time that has no label. */
public enum Background {
    /** A category of its own: leaving the same time unlabelled is agreement. */
    CATEGORY,
    /**
     * Time that both leave unlabelled does not count; time that only one of them labels is disagreement. Stricter where
     * much of a recording is idle, since easy agreement on idle time cannot raise the figures.
     */
    LEFT_OUT_IF_BOTH
}
