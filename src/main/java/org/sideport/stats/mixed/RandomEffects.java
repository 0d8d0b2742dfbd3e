package org.sideport.stats.mixed;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;

/**
 * How subjects differ: Σ of the model as SDs and correlations.
 *
 * @param components one for each random column
 * @param correlations each pair once, the later column first; empty if there is one column
 * @param residualSd σ, unit of the response
 * @param residualLimits profile-likelihood limits, {@code null} where they were not asked for
 * @param singular whether the optimum lies on the boundary: an SD of zero or a correlation of ±1
 */
public record RandomEffects(
        List<Component> components,
        List<Correlation> correlations,
        double residualSd,
        @Nullable Interval residualLimits,
        boolean singular) {

    /**
     * @param sd in units of the response for one unit of the column, at least 0
     * @param limits profile-likelihood limits; {@code null} where they were not asked for or the method gives none
     */
    public record Component(
            String name, double sd, @Nullable Interval limits) {}

    /**
     * @param value −1 to 1; {@code null} where one of the SDs is zero
     * @param limits profile-likelihood limits; {@code null} where they were not asked for or the method gives none
     */
    public record Correlation(
            String first,
            String second,
            @Nullable Double value,
            @Nullable Interval limits) {}

    public RandomEffects {
        components = List.copyOf(components);
        correlations = List.copyOf(correlations);
    }
}
