package org.sideport.stats.gtheory;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.stats.variance.Crossing;
import org.sideport.stats.variance.MeanSquares;
import org.sideport.stats.variance.Reml;
import org.sideport.stats.variance.VarianceComponent;
import org.sideport.stats.variance.VarianceComponents;

/**
 * A generalisability study (Brennan 2001, Generalizability Theory; Cronbach, Gleser, Nanda & Rajaratnam 1972): the variance
 * of scores split into persons, facets and their interactions, all random.
 *
 * @param design found in the data, or given
 * @param lines one for each effect that the data can show, narrow ones first, the residual last
 * @param levels how many levels of each facet the data hold
 * @param n number of scores
 * @param mean grand mean of the scores; {@code null} for published components
 * @param method mean squares, REML or published components
 * @param criterion the REML criterion, where REML was used
 */
public record GStudy(
        Design design,
        List<EffectVariance> lines,
        Map<String, Integer> levels,
        int n,
        @Nullable Double mean,
        String method,
        @Nullable Double criterion,
        List<String> warnings) {

    /** How to estimate. */
    public enum Method {
        /** Mean squares if the design is balanced, else REML. */
        AUTOMATIC,
        MEAN_SQUARES,
        REML
    }

    public GStudy {
        lines = List.copyOf(lines);
        levels = Map.copyOf(levels);
        warnings = List.copyOf(warnings);
    }

    /**
     * Finds the nesting in the data and estimates.
     *
     * @param data the factor {@code object} and one or more facets; a facet of one level is left out, with a warning
     * @param nested facets whose labels repeat although they are nested (rater 1 of one person is not rater 1 of the next),
     *     each with what it is nested in; usually empty
     * @return refused with fewer than 2 objects of measurement, no facet of 2 levels, or for the method's reasons
     * @throws IllegalArgumentException if a factor is missing
     */
    public static Outcome<GStudy> of(LongData data, String object, Map<String, Set<String>> nested, Method method) {
        data.factor(object);
        if (data.values().length == 0) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW, "there is no score", "collect scores of several persons first");
        }
        List<String> warnings = new ArrayList<>();
        List<Factor> factors = new ArrayList<>();
        for (Factor factor : data.factors()) {
            if (factor.size() > 1) {
                factors.add(relabelled(data, factor, nested.getOrDefault(factor.name(), Set.of())));
            } else if (!factor.name().equals(object)) {
                warnings.add("there is only one " + factor.name() + ", "
                        + factor.levels().get(0)
                        + ": what it adds to the scores cannot be seen, and the figures hold for it alone");
            }
        }
        LongData used = new LongData(factors, data.values());
        if (used.find(object).isEmpty() || factors.size() < 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "the data hold fewer than two of " + object + " or of every facet",
                    "collect scores of several persons by several raters or on several cases");
        }
        Design design = Nesting.detect(used, object);
        for (Factor factor : factors) {
            Set<String> within = nested.getOrDefault(factor.name(), Set.of());
            if (!within.isEmpty()) {
                design = design.nest(factor.name(), within);
            }
        }
        return new GStudyFit(used, design, warnings).fit(method);
    }

    /** Labels that count anew within another facet become different ones. */
    private static Factor relabelled(LongData data, Factor factor, Set<String> within) {
        Factor whole = factor;
        for (String outer : within) {
            Factor crossed = Crossing.of(List.of(data.factor(outer), whole));
            whole = new Factor(factor.name(), crossed.levels(), crossed.codes());
        }
        return whole;
    }

    /**
     * Components as published.
     *
     * @param components by effect: facet names, with {@code Effect#RESIDUAL} all of them; effects not named are 0
     * @param mean of the scores, if it is known
     */
    public static GStudy published(Design design, Map<Set<String>, Double> components, @Nullable Double mean) {
        List<EffectVariance> lines = new ArrayList<>();
        Map<Set<String>, Double> rest = new HashMap<>(components);
        for (Effect effect : design.effects()) {
            Double variance = rest.remove(Set.copyOf(effect.facets()));
            lines.add(new EffectVariance(effect, 0, variance == null ? 0 : variance, null));
        }
        if (!rest.isEmpty()) {
            throw new IllegalArgumentException(
                    "the design " + design.describe() + " has no effect of " + rest.keySet());
        }
        return new GStudy(design, lines, Map.of(), 0, mean, "published components", null, List.of());
    }

    public Optional<EffectVariance> find(String name) {
        return lines.stream().filter(l -> l.effect().name().equals(name)).findFirst();
    }

    /**
     * How many levels of a facet there are within one level of what it is nested in, on average, at least 1.
     *
     * @throws IllegalArgumentException if there is no such facet
     */
    public int levelsWithin(String facet) {
        double outer = 1;
        for (String name : design.facet(facet).within()) {
            outer = Math.max(outer, levels.getOrDefault(name, 1));
        }
        return (int) Math.max(1, Math.round(levels.getOrDefault(facet, 1) / outer));
    }

    /** Sum of the components, negative ones as 0. */
    public double total() {
        return lines.stream().mapToDouble(EffectVariance::used).sum();
    }

    /** The estimation itself. */
    private record GStudyFit(LongData data, Design design, List<String> warnings) {

        Outcome<GStudy> fit(Method method) {
            List<Effect> effects = design.effects();
            List<Factor> factors = effects.stream().map(this::factor).toList();
            List<MeanSquares.Source> sources = new ArrayList<>();
            for (int k = 0; k < effects.size(); k++) {
                sources.add(new MeanSquares.Source(design.mask(effects.get(k)), factors.get(k)));
            }
            boolean squares =
                    method == Method.MEAN_SQUARES || method == Method.AUTOMATIC && MeanSquares.balanced(sources);
            return squares
                    ? MeanSquares.fit(data.values(), sources).map(table -> study(effects, factors, table.components()))
                    : reml(effects, factors);
        }

        private Factor factor(Effect effect) {
            Factor crossed =
                    Crossing.of(effect.facets().stream().map(data::factor).toList());
            return new Factor(effect.label(), crossed.levels(), crossed.codes());
        }

        private Outcome<GStudy> reml(List<Effect> effects, List<Factor> factors) {
            List<Effect> kept = new ArrayList<>();
            List<Factor> fitted = new ArrayList<>();
            for (int k = 0; k < effects.size(); k++) {
                Factor factor = factors.get(k);
                if (factor.size() == data.size()) {
                    if (!effects.get(k).isResidual()) {
                        warnings.add("each " + factor.name() + " has one score only, so that its variance is part of"
                                + " the residual; more scores of the same promise less than the coefficients say");
                    }
                    continue;
                }
                Optional<Factor> same =
                        fitted.stream().filter(f -> samePartition(f, factor)).findFirst();
                if (same.isPresent()) {
                    warnings.add("these data cannot tell " + factor.name() + " from "
                            + same.get().name() + "; the variance of both stands under the latter");
                    continue;
                }
                kept.add(effects.get(k));
                fitted.add(factor);
            }
            if (kept.isEmpty()) {
                return Outcome.refused(
                        Refusal.Reason.NOT_IDENTIFIED,
                        "no person, rater or case has more than one score",
                        "collect several scores of each person");
            }
            return Reml.fit(data.values(), fitted).map(components -> study(kept, fitted, components));
        }

        private static boolean samePartition(Factor a, Factor b) {
            return a.size() == b.size() && Crossing.of(List.of(a, b)).size() == a.size();
        }

        private GStudy study(List<Effect> effects, List<Factor> factors, VarianceComponents components) {
            List<EffectVariance> lines = new ArrayList<>();
            for (int k = 0; k < effects.size(); k++) {
                Effect effect = effects.get(k);
                String name = factors.get(k).name();
                Optional<VarianceComponent> found = components.components().stream()
                        .filter(c -> c.name().equals(name))
                        .findFirst();
                // The widest is the residual, or with several scores a cell the interaction beside it.
                if (found.isPresent()) {
                    Effect shown = effect.isResidual()
                            ? new Effect(effect.facets(), String.join(":", effect.facets()), effect.label())
                            : effect;
                    lines.add(line(shown, found.get()));
                }
            }
            Effect widest = design.effect(Set.copyOf(design.names()));
            lines.add(line(widest, components.residual()));
            Map<String, Integer> levels = new TreeMap<>();
            data.factors().forEach(f -> levels.put(f.name(), f.size()));
            warnings.addAll(components.warnings());
            return new GStudy(
                    design,
                    lines,
                    levels,
                    data.size(),
                    components.mean(),
                    components.method(),
                    components.criterion(),
                    warnings);
        }

        private static EffectVariance line(Effect effect, VarianceComponent c) {
            return new EffectVariance(effect, c.levels(), c.variance(), c.se());
        }
    }
}
