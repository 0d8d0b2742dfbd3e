package org.sideport.stats.rasch;

/** Marks that tell only that a measure lies beyond the scale. */
public enum Extreme {
    NONE,
    /** All marks at the highest level: the measure is a lower bound for a trainee, an upper one otherwise. */
    ALL_TOP,
    /** All marks at the lowest level. */
    ALL_BOTTOM,
    /** An item of the partial credit model that had one level only: it has no steps and no measure. */
    CONSTANT,
    /** Met only those that are set aside for extreme marks: what there is of a measure rests on theirs. */
    INDIRECT
}
