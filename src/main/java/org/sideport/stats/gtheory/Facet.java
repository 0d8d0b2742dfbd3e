package org.sideport.stats.gtheory;

import java.util.Set;

/**
 * A condition under which scores are made, for instance the rater; also the object of measurement.
 *
 * @param name as in the data
 * @param within all facets in which it is nested, directly or not; empty for a crossed facet
 */
public record Facet(String name, Set<String> within) {

    public Facet {
        within = Set.copyOf(within);
        if (name.isBlank() || within.contains(name)) {
            throw new IllegalArgumentException("facet " + name + " within " + within);
        }
    }

    public static Facet crossed(String name) {
        return new Facet(name, Set.of());
    }
}
