package org.sideport.stats.gtheory;

import org.jspecify.annotations.Nullable;

/**
 * One line of a G-study.
 *
 * @param levels number of levels met; of the residual the number of scores; 0 where the components are published ones
 * @param variance squared units of the score; negative if mean squares say so
 * @param se standard error; {@code null} where the method gives none
 */
public record EffectVariance(
        Effect effect,
        int levels,
        double variance,
        @Nullable Double se) {

    public EffectVariance {
        if (!Double.isFinite(variance)) {
            throw new IllegalArgumentException(effect.name() + ": variance " + variance);
        }
    }

    /** What counts in coefficients and shares: negative is 0. */
    public double used() {
        return Math.max(variance, 0);
    }
}
