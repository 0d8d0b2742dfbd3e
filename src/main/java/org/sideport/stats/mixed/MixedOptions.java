package org.sideport.stats.mixed;

/**
 * How a model is fitted.
 *
 * @param level coverage of all limits, between 0 and 1, for instance 0.95
 * @param profile whether SDs and correlation get profile-likelihood limits: some dozen further fits, for one or two
 *     random columns
 */
public record MixedOptions(Criterion criterion, double level, boolean profile) {

    public MixedOptions {
        if (!(level > 0 && level < 1)) {
            throw new IllegalArgumentException("level " + level + " is not between 0 and 1");
        }
    }

    /** REML, 95 % limits, no profile. */
    public static MixedOptions standard() {
        return new MixedOptions(Criterion.REML, 0.95, false);
    }

    public MixedOptions withProfile() {
        return new MixedOptions(criterion, level, true);
    }

    public MixedOptions withCriterion(Criterion other) {
        return new MixedOptions(other, level, profile);
    }
}
