package org.sideport.stats.agreement;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;

/**
 * An agreement corrected for chance.
 *
 * @param observed (weighted) share of agreement
 * @param expected what the method takes for chance
 * @param estimate (observed − expected) ⁄ (1 − expected), with its standard error; {@code n} counts subjects
 * @param nullSe standard error if there were no agreement beyond chance, for a test; {@code null} where the method gives none
 */
public record Kappa(
        double observed,
        double expected,
        Estimate estimate,
        @Nullable Double nullSe) {}
