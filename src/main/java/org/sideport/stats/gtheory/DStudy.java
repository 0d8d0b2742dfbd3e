package org.sideport.stats.gtheory;

import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * A decision study: what an assessment of a given size would reach, from the components of a G-study (Brennan 2001,
 * Generalizability Theory, chapters 4 and 5). Each effect is divided by the number of its levels that enter a person's
 * mean. An effect that holds the person is relative error, in a facet nested in the person too; all effects of random
 * facets are absolute error. An effect of the person with fixed facets only is universe score; one of fixed facets only
 * is no error. Negative components count as 0.
 *
 * @param design of the assessment; may nest facets that the G-study crossed (other cases for each person, other raters for
 *     each case), not the other way round
 * @param counts for each facet but the person: how many, within one level of what it is nested in; 1 or more
 * @param fixed facets whose levels are all there are: always these cases, always these raters
 */
public record DStudy(Design design, Map<String, Integer> counts, Set<String> fixed) {

    /**
     * Squared units of the score for variances, units of the score for standard errors of measurement.
     *
     * @param g generalisability coefficient Eρ², for ranking persons
     * @param phi index of dependability Φ, for decisions against a standard; never above {@code g}
     */
    public record Coefficients(
            double universe,
            double relativeError,
            double absoluteError,
            double g,
            double phi,
            double semRelative,
            double semAbsolute) {}

    public DStudy {
        counts = Map.copyOf(counts);
        fixed = Set.copyOf(fixed);
        for (Facet facet : design.facets()) {
            boolean object = facet.name().equals(design.object());
            Integer count = counts.get(facet.name());
            if (!object && (count == null || count < 1)) {
                throw new IllegalArgumentException("number of " + facet.name() + ": " + count);
            }
            if (fixed.contains(facet.name()) && (object || !fixed.containsAll(facet.within()))) {
                throw new IllegalArgumentException(
                        facet.name() + " cannot be fixed: it is the object of measurement or nested in a random facet");
            }
        }
        for (String name : fixed) {
            design.facet(name);
        }
    }

    /**
     * @return refused if persons do not differ
     * @throws IllegalArgumentException if this design lacks a facet of the study or crosses one that the study nests
     */
    public Outcome<Coefficients> coefficients(GStudy study) {
        check(study.design());
        double universe = 0;
        double relative = 0;
        double absolute = 0;
        for (EffectVariance line : study.lines()) {
            Set<String> touched = design.closure(line.effect().facets());
            boolean ofObject = touched.contains(design.object());
            double part = line.used() / divisor(touched);
            Set<String> others = new HashSet<>(touched);
            others.remove(design.object());
            boolean residual = line.effect().isResidual();
            // The residual holds what is left of each score: random even if all facets are fixed.
            if (fixed.containsAll(others) && !residual) {
                universe += ofObject ? part : 0;
            } else {
                absolute += part;
                relative += ofObject ? part : 0;
            }
        }
        if (universe <= 0) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "these data show no difference between the persons (variance of " + design.object() + " 0)",
                    "collect scores of more persons of different skill");
        }
        return Outcome.of(new Coefficients(
                universe,
                relative,
                absolute,
                universe / (universe + relative),
                universe / (universe + absolute),
                Math.sqrt(relative),
                Math.sqrt(absolute)));
    }

    /** Variance of the grand mean over this many persons, for the distance of the mean from a cut score. */
    public double meanVariance(GStudy study, int persons) {
        double variance = 0;
        for (EffectVariance line : study.lines()) {
            Set<String> touched = design.closure(line.effect().facets());
            Set<String> others = new HashSet<>(touched);
            others.remove(design.object());
            if (touched.contains(design.object())) {
                variance += line.used() / divisor(touched) / persons;
            } else if (!fixed.containsAll(others)) {
                variance += line.used() / divisor(touched);
            }
        }
        return variance;
    }

    private double divisor(Set<String> touched) {
        double divisor = 1;
        for (String facet : touched) {
            divisor *= facet.equals(design.object()) ? 1 : counts.getOrDefault(facet, 1);
        }
        return divisor;
    }

    private void check(Design studied) {
        for (Facet facet : studied.facets()) {
            if (!design.facet(facet.name()).within().containsAll(facet.within())) {
                throw new IllegalArgumentException(facet.name()
                        + " was nested in the study; its parts cannot be told apart, so it cannot be crossed");
            }
        }
        if (!studied.object().equals(design.object())
                || studied.facets().size() != design.facets().size()) {
            throw new IllegalArgumentException("the assessment has other facets than the study");
        }
    }
}
