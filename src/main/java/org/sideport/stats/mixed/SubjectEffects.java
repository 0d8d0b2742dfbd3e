package org.sideport.stats.mixed;

import java.util.ArrayList;
import java.util.List;

/** The subjects of a fit, one by one. */
final class SubjectEffects {

    private SubjectEffects() {}

    static List<SubjectEffect> of(MixedFit fit) {
        int[] counts = fit.data().countBySubject();
        double[][] covariance = fit.randomCovariance();
        List<SubjectEffect> effects = new ArrayList<>();
        for (int s = 0; s < counts.length; s++) {
            if (counts[s] > 0) {
                effects.add(new SubjectEffect(
                        fit.data().subject().levels().get(s), counts[s], deviations(fit, s, covariance)));
            }
        }
        return effects;
    }

    private static List<SubjectEffect.Deviation> deviations(MixedFit fit, int s, double[][] covariance) {
        double[][] tInverse = fit.deviance().data().tInverse;
        double[] blup = Small.multiply(tInverse, fit.solution().blup(s));
        double[][] conditional = Small.multiply(
                Small.multiply(tInverse, fit.solution().conditionalVariance(s)), Small.transpose(tInverse));
        double sigma = fit.solution().sigma();
        List<Column> random = fit.data().random();
        List<SubjectEffect.Deviation> deviations = new ArrayList<>();
        for (int k = 0; k < random.size(); k++) {
            String name = random.get(k).name();
            double[] z = new double[random.size()];
            z[k] = 1;
            double[] x = new double[fit.data().fixed().size()];
            for (int j = 0; j < x.length; j++) {
                x[j] = fit.data().fixed().get(j).name().equals(name) ? 1 : 0;
            }
            double open = conditional[k][k] * sigma * sigma;
            double shrinkage = covariance[k][k] > 0 ? Math.min(1, open / covariance[k][k]) : 1;
            deviations.add(
                    new SubjectEffect.Deviation(name, blup[k], Math.sqrt(open), fit.own(s, x, z, false), shrinkage));
        }
        return deviations;
    }
}
