package org.sideport.stats.variance;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The variance of observations split by its sources.
 *
 * @param components one for each random factor, in the order given
 * @param residual what is left
 * @param mean the grand mean; with REML the generalised least-squares estimate
 * @param meanSe its standard error; {@code null} where the method gives none
 * @param n number of observations
 * @param criterion the REML criterion, minus twice the restricted log-likelihood at its maximum, comparable between
 *     models of the same observations; {@code null} for mean squares
 * @param method for the reader of a report
 * @param warnings sentences for people
 */
public record VarianceComponents(
        List<VarianceComponent> components,
        VarianceComponent residual,
        double mean,
        @Nullable Double meanSe,
        int n,
        @Nullable Double criterion,
        String method,
        List<String> warnings) {

    public VarianceComponents {
        components = List.copyOf(components);
        warnings = List.copyOf(warnings);
    }

    /**
     * @throws IllegalArgumentException if there is no such component; {@code residual} is one
     */
    public VarianceComponent component(String name) {
        if (residual.name().equals(name)) {
            return residual;
        }
        return components.stream()
                .filter(c -> c.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no component " + name));
    }
}
