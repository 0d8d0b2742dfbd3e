package org.sideport.stats.gtheory;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;

/**
 * What a weighted mean of one person's own scores is worth, however unevenly they are spread over cases and raters. Each
 * effect enters the mean with the sum over its levels of (weight of the scores that hold the level)²: the variance of a
 * weighted sum of independent effects, and with balanced scores of equal weight the divisors of {@link DStudy} (Brennan
 * 2001, Generalizability Theory, section 4.1, and chapter 7 on unbalanced designs). All facets are random.
 */
public final class AchievedPrecision {

    private AchievedPrecision() {}

    /**
     * @param study components of variance; its design nests what is nested
     * @param weights of the one person's scores in the mean, above 0, of any sum; a factor for each facet of the study but
     *     the person
     * @return refused without scores, or if the study shows no difference between persons
     * @throws IllegalArgumentException if a facet is missing
     */
    public static Outcome<DStudy.Coefficients> of(GStudy study, LongData weights) {
        if (weights.size() == 0) {
            return Outcome.refused(Refusal.Reason.TOO_FEW, "there are no scores", "collect scores of this person");
        }
        Design design = study.design();
        double universe = 0;
        double relative = 0;
        double absolute = 0;
        for (EffectVariance line : study.lines()) {
            Set<String> touched = design.closure(line.effect().facets());
            boolean ofPerson = touched.contains(design.object());
            Set<String> others = new HashSet<>(touched);
            others.remove(design.object());
            if (others.isEmpty()) {
                universe += line.used();
                continue;
            }
            double part = line.used() * concentration(weights, others);
            absolute += part;
            relative += ofPerson ? part : 0;
        }
        if (universe <= 0) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "these data show no difference between the persons (variance of " + design.object() + " 0)",
                    "collect scores of more persons of different skill");
        }
        return Outcome.of(new DStudy.Coefficients(
                universe,
                relative,
                absolute,
                universe / (universe + relative),
                universe / (universe + absolute),
                Math.sqrt(relative),
                Math.sqrt(absolute)));
    }

    /** Σ weight² over the combinations met: 1 if all scores hold the same one, 1/k if k hold equally much. */
    private static double concentration(LongData weights, Set<String> facets) {
        List<Factor> factors = facets.stream().sorted().map(weights::factor).toList();
        Map<List<Integer>, Double> held = new HashMap<>();
        double total = 0;
        for (int i = 0; i < weights.size(); i++) {
            List<Integer> combination = new ArrayList<>();
            for (Factor factor : factors) {
                combination.add(factor.codes()[i]);
            }
            held.merge(combination, weights.values()[i], Double::sum);
            total += weights.values()[i];
        }
        double sum = 0;
        for (double weight : held.values()) {
            sum += weight / total * (weight / total);
        }
        return sum;
    }
}
