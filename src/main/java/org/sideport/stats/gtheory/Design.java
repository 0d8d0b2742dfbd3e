package org.sideport.stats.gtheory;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * The facets of a study and how they are nested. Any number of facets, crossed or nested: p × r, p × c × r, r:p, (c:p) × r,
 * r:(p × c), p × (r:c), p × i × r … (notation of Brennan 2001, Generalizability Theory, chapter 3).
 *
 * @param facets the first is the object of measurement, usually the person; distinct names; 2 to 8
 */
public record Design(List<Facet> facets) {

    private static final int MOST_FACETS = 8;

    public Design {
        facets = List.copyOf(facets);
        Set<String> names = facets.stream().map(Facet::name).collect(Collectors.toSet());
        if (names.size() != facets.size() || facets.size() < 2 || facets.size() > MOST_FACETS) {
            throw new IllegalArgumentException("facets " + facets + ": 2 to " + MOST_FACETS + " with distinct names");
        }
        if (!facets.get(0).within().isEmpty()) {
            throw new IllegalArgumentException("the object of measurement "
                    + facets.get(0).name() + " is nested; its group would be another object of measurement");
        }
        Map<String, Facet> byName = facets.stream().collect(Collectors.toMap(Facet::name, f -> f));
        List<Facet> complete = new ArrayList<>();
        for (Facet facet : facets) {
            Set<String> within = new HashSet<>();
            close(facet, byName, within);
            if (within.contains(facet.name())) {
                throw new IllegalArgumentException(facet.name() + " is nested in itself by way of others");
            }
            complete.add(new Facet(facet.name(), within));
        }
        facets = List.copyOf(complete);
    }

    private static void close(Facet facet, Map<String, Facet> byName, Set<String> found) {
        for (String outer : facet.within()) {
            Facet next = byName.get(outer);
            if (next == null) {
                throw new IllegalArgumentException("no facet " + outer);
            }
            if (found.add(outer)) {
                close(next, byName, found);
            }
        }
    }

    /** All facets crossed. */
    public static Design crossed(String... names) {
        return new Design(List.of(names).stream().map(Facet::crossed).toList());
    }

    public String object() {
        return facets.get(0).name();
    }

    public List<String> names() {
        return facets.stream().map(Facet::name).toList();
    }

    /**
     * @throws IllegalArgumentException if there is none
     */
    public Facet facet(String name) {
        return facets.stream()
                .filter(f -> f.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no facet " + name));
    }

    /** The same facets, one of them nested in others. */
    public Design nest(String name, Set<String> within) {
        facet(name);
        return new Design(facets.stream()
                .map(f -> f.name().equals(name) ? new Facet(name, within) : f)
                .toList());
    }

    /**
     * Every effect that the design can show: the sets of facets that hold, with each facet, all it is nested in. Narrow
     * ones first. The widest is the residual; with one observation a cell it is also the highest interaction.
     */
    public List<Effect> effects() {
        List<Effect> effects = new ArrayList<>();
        int all = (1 << facets.size()) - 1;
        for (int mask = 1; mask <= all; mask++) {
            List<String> members = members(mask);
            if (closure(members).size() == members.size()) {
                effects.add(effect(members, mask == all));
            }
        }
        effects.sort(Comparator.comparingInt(e -> e.facets().size()));
        return effects;
    }

    /** The effect of these facets (and all they are nested in). */
    public Effect effect(Set<String> members) {
        Set<String> closed = closure(List.copyOf(members));
        List<String> ordered = names().stream().filter(closed::contains).toList();
        return effect(ordered, ordered.size() == facets.size());
    }

    private Effect effect(List<String> members, boolean widest) {
        return new Effect(members, widest ? Effect.RESIDUAL : String.join(":", members), label(members));
    }

    /** These facets and all that they are nested in. */
    public Set<String> closure(List<String> members) {
        Set<String> closed = new TreeSet<>(members);
        members.forEach(name -> closed.addAll(facet(name).within()));
        return closed;
    }

    int mask(Effect effect) {
        int mask = 0;
        for (int k = 0; k < facets.size(); k++) {
            mask |= effect.facets().contains(facets.get(k).name()) ? 1 << k : 0;
        }
        return mask;
    }

    private List<String> members(int mask) {
        List<String> members = new ArrayList<>();
        for (int k = 0; k < facets.size(); k++) {
            if ((mask >> k & 1) == 1) {
                members.add(facets.get(k).name());
            }
        }
        return members;
    }

    /** {@code subject × rater}; {@code rater in subject} where the latter holds the former. */
    private String label(List<String> members) {
        Set<String> holders = members.stream()
                .flatMap(m -> facet(m).within().stream())
                .collect(Collectors.toCollection(TreeSet::new));
        String inner = members.stream().filter(m -> !holders.contains(m)).collect(Collectors.joining(" × "));
        String outer = members.stream().filter(holders::contains).collect(Collectors.joining(" and "));
        return outer.isEmpty() ? inner : inner + " in " + outer;
    }

    /** For people, for instance {@code subject × rater, case in subject}. */
    public String describe() {
        String free = facets.stream()
                .filter(f -> f.within().isEmpty())
                .map(Facet::name)
                .collect(Collectors.joining(" × "));
        String nested = facets.stream()
                .filter(f -> !f.within().isEmpty())
                .map(f -> f.name() + " in "
                        + names().stream().filter(f.within()::contains).collect(Collectors.joining(" and ")))
                .collect(Collectors.joining(", "));
        return nested.isEmpty() ? free + " (crossed)" : free + ", " + nested;
    }
}
