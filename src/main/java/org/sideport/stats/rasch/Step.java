package org.sideport.stats.rasch;

import org.sideport.stats.Estimate;

/**
 * A step between neighbouring levels.
 *
 * @param item {@code "all"} in the rating scale model
 * @param n marks at the upper level
 * @param deviation where both levels are equally likely, as a distance from the item's difficulty, logits; of a step over
 *     an unused level, the mean for each level
 */
public record Step(String item, int from, int to, int n, Estimate deviation) {}
