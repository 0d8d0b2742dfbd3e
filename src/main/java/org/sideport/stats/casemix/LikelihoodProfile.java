package org.sideport.stats.casemix;

import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.exception.MathRuntimeException;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.casemix.LogisticLikelihood.Maximum;

/**
 * Limits and test of one coefficient by the likelihood ratio, the others refitted at each value held (Venzon &
 * Moolgavkar 1988, Applied Statistics 37:87; for the penalised likelihood Heinze & Schemper 2002, section 2.3). They need
 * not lie evenly about the estimate, and hold where Wald's do not.
 */
final class LikelihoodProfile {

    private static final int MOST_WIDENINGS = 60;

    private final LogisticLikelihood likelihood;
    private final Maximum maximum;
    private final int coefficient;

    LikelihoodProfile(LogisticLikelihood likelihood, Maximum maximum, int coefficient) {
        this.likelihood = likelihood;
        this.maximum = maximum;
        this.coefficient = coefficient;
    }

    /**
     * In the unit of the data; {@code null} if a search comes to no end.
     *
     * @param se of the coefficient, unit of the data
     */
    @Nullable
    Interval limits(double se, double level) {
        double z = new NormalDistribution().inverseCumulativeProbability(0.5 + level / 2);
        double step = z * se * likelihood.scale(coefficient);
        @Nullable Double lower = limit(-step, z);
        @Nullable Double upper = limit(step, z);
        if (lower == null || upper == null) {
            return null;
        }
        return new Interval(lower / likelihood.scale(coefficient), upper / likelihood.scale(coefficient), level);
    }

    /** Twice the loss of log-likelihood with the coefficient held at 0; {@code null} if that cannot be found. */
    @Nullable
    Double ratioAtZero() {
        double root = root(0);
        return Double.isNaN(root) ? null : (Double) (root * root);
    }

    private @Nullable Double limit(double step, double z) {
        double estimate = maximum.beta()[coefficient];
        double inside = estimate;
        double outside = estimate + step;
        for (int i = 0; root(outside) < z; i++) {
            if (i == MOST_WIDENINGS) {
                return null;
            }
            inside = outside;
            outside = estimate + (outside - estimate) * 1.5;
        }
        if (Double.isNaN(root(outside))) {
            return null;
        }
        try {
            double from = Math.min(inside, outside);
            double to = Math.max(inside, outside);
            return new BracketingNthOrderBrentSolver(1e-12, Math.abs(step) * 1e-10, 1e-12, 5)
                    .solve(200, v -> root(v) - z, from, to);
        } catch (MathRuntimeException e) {
            return null;
        }
    }

    /** Square root of the likelihood ratio statistic: nearly linear in the value. NaN if the others cannot be refitted. */
    private double root(double value) {
        double[] start = maximum.beta().clone();
        start[coefficient] = value;
        @Nullable Maximum held = likelihood.maximise(start, coefficient);
        return held == null ? Double.NaN : Math.sqrt(2 * Math.max(maximum.value() - held.value(), 0));
    }
}
