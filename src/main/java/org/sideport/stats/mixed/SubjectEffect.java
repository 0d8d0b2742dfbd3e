package org.sideport.stats.mixed;

import java.util.List;
import org.sideport.stats.Estimate;

/**
 * One subject: how it differs from the population.
 *
 * @param n observations of this subject
 * @param deviations one for each random column
 */
public record SubjectEffect(String subject, int n, List<Deviation> deviations) {

    /**
     * @param name of the random column
     * @param blup best linear unbiased predictor of the subject's deviation from the population
     * @param conditionalSd SD of the deviation given the data, the fixed effects taken as known
     * @param own the subject's own coefficient: population plus deviation, with limits that hold the uncertainty of
     *     both; for a column that is not among the fixed ones the deviation itself
     * @param shrinkage share of the between-subject variance that the subject's data leave open, 0 to 1: at 0 the
     *     subject's own data speak alone, at 1 the figure is the population's; 1 where there is no such variance
     */
    public record Deviation(String name, double blup, double conditionalSd, Estimate own, double shrinkage) {}

    public SubjectEffect {
        deviations = List.copyOf(deviations);
    }

    /**
     * @throws IllegalArgumentException if there is no such random column
     */
    public Deviation deviation(String name) {
        return deviations.stream()
                .filter(d -> d.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no random column " + name));
    }
}
