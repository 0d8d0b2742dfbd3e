package org.sideport.stats.gtheory;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.sideport.stats.Outcome;

/**
 * The sizes of an assessment that reach a wished coefficient, and what they cost.
 *
 * @param template the design, its fixed facets and the numbers of the facets that are not searched
 * @param most the facets to vary (one or two), each with the greatest number to try
 * @param cost of the assessment of one person
 */
public record DesignSearch(DStudy template, Map<String, Integer> most, Cost cost) {

    /**
     * Minutes for one person.
     *
     * @param perMarking for each case seen by each rater
     * @param perCase for each case on top, for instance to prepare the recording
     * @param caseFacet the facet that {@code perCase} counts
     */
    public record Cost(double perMarking, double perCase, String caseFacet) {
        public Cost {
            if (!(perMarking >= 0 && perCase >= 0)) {
                throw new IllegalArgumentException("minutes " + perMarking + " and " + perCase);
            }
        }
    }

    /** Which coefficient is wished. */
    public enum Wish {
        G,
        PHI
    }

    /**
     * @param minutes for one person
     */
    public record Option(Map<String, Integer> counts, DStudy.Coefficients coefficients, double minutes) {
        public Option {
            counts = Map.copyOf(counts);
        }

        double of(Wish wish) {
            return wish == Wish.G ? coefficients.g() : coefficients.phi();
        }
    }

    public DesignSearch {
        most = Map.copyOf(most);
        if (most.isEmpty() || most.values().stream().anyMatch(m -> m < 1)) {
            throw new IllegalArgumentException("most " + most);
        }
    }

    /** Every size up to the greatest, the facets of the design in their order, the last running fastest. */
    public Outcome<List<Option>> all(GStudy study) {
        List<String> varied =
                template.design().names().stream().filter(most::containsKey).toList();
        List<Map<String, Integer>> sizes = new ArrayList<>();
        sizes.add(Map.of());
        for (String facet : varied) {
            List<Map<String, Integer>> longer = new ArrayList<>();
            for (Map<String, Integer> size : sizes) {
                for (int k = 1; k <= most.getOrDefault(facet, 1); k++) {
                    Map<String, Integer> next = new HashMap<>(size);
                    next.put(facet, k);
                    longer.add(next);
                }
            }
            sizes = longer;
        }
        List<Option> options = new ArrayList<>();
        for (Map<String, Integer> size : sizes) {
            Map<String, Integer> counts = new HashMap<>(template.counts());
            counts.putAll(size);
            Outcome<DStudy.Coefficients> c =
                    new DStudy(template.design(), counts, template.fixed()).coefficients(study);
            if (c instanceof Outcome.Refused<DStudy.Coefficients> refused) {
                return new Outcome.Refused<>(refused.refusal());
            }
            options.add(new Option(size, c.orElseThrow(), minutes(size)));
        }
        return Outcome.of(options);
    }

    /**
     * The options that reach the wish and that no other one reaches with fewer or as many of everything, cheapest first; of
     * equal cost the better coefficient first. Empty if none reaches it.
     */
    public static List<Option> reaching(List<Option> options, Wish wish, double wished) {
        List<Option> good =
                options.stream().filter(o -> o.of(wish) >= wished - 1e-12).toList();
        return good.stream()
                .filter(o -> good.stream().noneMatch(other -> smaller(other, o)))
                .sorted(Comparator.comparingDouble(Option::minutes).thenComparing(o -> -o.of(wish)))
                .toList();
    }

    private static boolean smaller(Option a, Option b) {
        return !a.counts().equals(b.counts())
                && a.counts().entrySet().stream()
                        .allMatch(e -> e.getValue() <= b.counts().getOrDefault(e.getKey(), 1));
    }

    private double minutes(Map<String, Integer> size) {
        double markings =
                size.values().stream().mapToInt(k -> k).asDoubleStream().reduce(1, (a, b) -> a * b);
        return markings * cost.perMarking() + size.getOrDefault(cost.caseFacet(), 1) * cost.perCase();
    }
}
