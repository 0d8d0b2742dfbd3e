package org.sideport.stats.rasch;

/**
 * Wald's test that all assessors are equally severe, with the covariances of their severities.
 *
 * @param df assessors less one
 * @param p small if some differ in severity
 */
public record Homogeneity(double chiSquare, int df, double p) {}
