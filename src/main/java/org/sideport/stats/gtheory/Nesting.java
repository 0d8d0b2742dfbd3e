package org.sideport.stats.gtheory;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.stats.variance.Crossing;

/** Finds from data which facets are nested: each level of the inner one is met with one level of the outer one only. */
final class Nesting {

    private Nesting() {}

    /** @param data the factor {@code object} and at least one other */
    static Design detect(LongData data, String object) {
        List<Facet> facets = new ArrayList<>();
        facets.add(Facet.crossed(object));
        for (Factor factor : data.factors()) {
            if (!factor.name().equals(object)) {
                Set<String> within = new HashSet<>();
                for (Factor outer : data.factors()) {
                    if (!outer.name().equals(factor.name()) && inside(factor, outer)) {
                        within.add(outer.name());
                    }
                }
                facets.add(new Facet(factor.name(), within));
            }
        }
        return new Design(facets);
    }

    /** Levels of the inner that outnumber the outer ones, each with one outer level: as many pairs as inner levels. */
    static boolean inside(Factor inner, Factor outer) {
        return inner.size() > outer.size() && Crossing.of(List.of(inner, outer)).size() == inner.size();
    }
}
