package org.sideport.stats.casemix;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;

/**
 * A coefficient of a logistic model: the change of the log odds for one unit of the term, or against the reference level.
 *
 * @param factor {@link Term#INTERCEPT} or the term's factor
 * @param level {@code null} for the intercept and for numbers
 * @param estimate log odds ratio
 * @param se by the inverse information
 * @param wald {@code estimate ± z se}
 * @param profile by the (penalised) likelihood ratio; {@code null} if not asked for or not found
 * @param likelihoodRatio chi-square with 1 degree of freedom against 0; {@code null} as above
 * @param pLikelihoodRatio its p value
 */
public record Coefficient(
        String factor,
        @Nullable String level,
        double estimate,
        double se,
        double z,
        double pWald,
        Interval wald,
        @Nullable Interval profile,
        @Nullable Double likelihoodRatio,
        @Nullable Double pLikelihoodRatio) {

    /** {@code factor}, or {@code factor=level}. */
    public String name() {
        return level == null ? factor : factor + "=" + level;
    }

    /** The factor on the odds; for the intercept the odds where all terms are 0. */
    public double oddsRatio() {
        return Math.exp(estimate);
    }

    /** Limits of the odds ratio: by the profile where there is one, else Wald's. */
    public Interval oddsRatioLimits() {
        Interval limits = profile == null ? wald : profile;
        return new Interval(Math.exp(limits.lower()), Math.exp(limits.upper()), limits.level());
    }
}
