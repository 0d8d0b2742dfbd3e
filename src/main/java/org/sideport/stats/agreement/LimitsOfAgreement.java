package org.sideport.stats.agreement;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;

/**
 * Between which bounds the difference of two raters or methods lies for most subjects, in the unit of what was measured.
 *
 * @param bias mean difference, first minus second
 * @param sd of the difference of two single measurements of one subject
 * @param lower bias − multiplier × sd, with limits of its own
 * @param upper bias + multiplier × sd, with limits of its own
 * @param multiplier SDs on either side of the bias
 * @param slope of the difference on the mean of the pair: a bias that grows with size; {@code null} where the means do not
 *     vary or measurements are repeated
 * @param slopeP two-sided p of that slope; {@code null} likewise
 */
public record LimitsOfAgreement(
        Estimate bias,
        double sd,
        Estimate lower,
        Estimate upper,
        double multiplier,
        @Nullable Double slope,
        @Nullable Double slopeP) {}
