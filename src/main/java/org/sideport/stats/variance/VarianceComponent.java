package org.sideport.stats.variance;

import org.jspecify.annotations.Nullable;

/**
 * One component of variance.
 *
 * @param name of the factor, {@code residual} for the rest
 * @param levels number of levels met; for the residual the number of observations
 * @param variance in squared units of the values; mean squares may give a negative one, which is left as it comes
 * @param se standard error of {@code variance}; {@code null} where the method gives none, for instance on the boundary
 */
public record VarianceComponent(
        String name, int levels, double variance, @Nullable Double se) {

    public VarianceComponent {
        if (!Double.isFinite(variance)) {
            throw new IllegalArgumentException(name + ": variance " + variance);
        }
    }

    /** The variance, or zero where it is negative: what goes into coefficients. */
    public double truncated() {
        return Math.max(variance, 0);
    }
}
