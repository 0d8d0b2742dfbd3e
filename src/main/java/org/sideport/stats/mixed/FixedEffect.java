package org.sideport.stats.mixed;

import org.sideport.stats.Estimate;

/**
 * One coefficient of the population.
 *
 * @param name of its column
 * @param estimate coefficient in units of the response for one unit of the column, its SE and t limits; n counts
 *     subjects
 * @param t estimate / SE
 * @param df degrees of freedom of t; the estimate's method names their origin
 * @param p two-sided
 */
public record FixedEffect(String name, Estimate estimate, double t, double df, double p) {}
