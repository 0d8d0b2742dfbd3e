package org.sideport.stats.gtheory;

import java.util.List;

/**
 * A source of variance: facets that act together. A nested facet stands with those it is nested in.
 *
 * @param facets in the design's order, not empty
 * @param name {@code subject:rater}, or {@code residual} where the rest is mixed in
 * @param label for people: {@code subject × rater}, {@code rater in subject}
 */
public record Effect(List<String> facets, String name, String label) {

    public static final String RESIDUAL = "residual";

    public Effect {
        facets = List.copyOf(facets);
        if (facets.isEmpty()) {
            throw new IllegalArgumentException("an effect without a facet");
        }
    }

    public boolean isResidual() {
        return name.equals(RESIDUAL);
    }
}
