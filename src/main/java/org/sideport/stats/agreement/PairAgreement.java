package org.sideport.stats.agreement;

import org.jspecify.annotations.Nullable;

/**
 * How two raters' scores of the same subjects compare, without correction for chance.
 *
 * @param subjects scored by both
 * @param exact share of equal scores, 0 to 1
 * @param withinOneLevel share of scores that are equal or differ by one level of the scale; {@code null} where the scores
 *     do not form levels
 * @param meanDifference first minus second, in score units: positive where the first rater is more lenient
 */
public record PairAgreement(
        String first,
        String second,
        int subjects,
        double exact,
        @Nullable Double withinOneLevel,
        double meanDifference) {}
