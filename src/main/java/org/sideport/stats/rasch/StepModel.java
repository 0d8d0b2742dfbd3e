package org.sideport.stats.rasch;

/** How the steps from level to level are modelled. */
public enum StepModel {
    /** The distances between the levels are the same in all items (Andrich 1978, Psychometrika 43:561). */
    RATING_SCALE,
    /** Each item has its own steps and its own number of levels (Masters 1982, Psychometrika 47:149). */
    PARTIAL_CREDIT
}
