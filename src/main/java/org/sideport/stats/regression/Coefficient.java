package org.sideport.stats.regression;

import org.sideport.stats.Interval;

/**
 * A term's weight in a linear or nonlinear model.
 *
 * @param value in the unit of the response per unit of the term
 * @param se standard error; for a nonlinear model from the derivatives at the estimate
 * @param limits {@code value ± t · se} with the residual degrees of freedom
 */
public record Coefficient(String name, double value, double se, Interval limits) {}
