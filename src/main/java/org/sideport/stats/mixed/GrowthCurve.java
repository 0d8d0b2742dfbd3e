package org.sideport.stats.mixed;

import java.util.Arrays;
import org.sideport.stats.Estimate;

/**
 * A fit of a {@link GrowthDesign} read along the case number. Values are on the scale of the model, that is logs where
 * the design takes logs. Covariates are held at their mean over the observations.
 */
public record GrowthCurve(GrowthDesign design, MixedFit fit) {

    /** Fixed effect of the case number: change per case, or per doubling, in the population. */
    public FixedEffect slope() {
        return fit.fixedEffect(design.time().column());
    }

    /** The population's expected value at a case. */
    public Estimate population(double caseNumber) {
        return fit.population(fixed(caseNumber));
    }

    /** A subject's own expected value at a case, see {@link MixedFit#own}. */
    public Estimate own(String subject, double caseNumber) {
        return fit.own(subject, fixed(caseNumber), random(caseNumber));
    }

    /** One new case of a subject, see {@link MixedFit#ownObservation}. */
    public Estimate ownObservation(String subject, double caseNumber) {
        return fit.ownObservation(subject, fixed(caseNumber), random(caseNumber));
    }

    private double[] fixed(double caseNumber) {
        double[] at = fit.data().fixed().stream()
                .mapToDouble(c -> Arrays.stream(c.values()).average().orElse(0))
                .toArray();
        at[1] = design.time().of(caseNumber);
        return at;
    }

    private double[] random(double caseNumber) {
        return design.randomSlope() ? new double[] {1, design.time().of(caseNumber)} : new double[] {1};
    }
}
