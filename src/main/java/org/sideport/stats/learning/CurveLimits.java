package org.sideport.stats.learning;

import org.hipparchus.distribution.continuous.TDistribution;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.regression.Coefficient;

/**
 * Where the fitted curve itself lies at a case number, not where a single case does: pointwise limits by linear
 * approximation with Student's t, on the scale of the errors (Bates & Watts 1988, Nonlinear Regression Analysis, section
 * 2.3.2). For a curve that is linear in its parameters they are those of linear regression.
 */
public final class CurveLimits {

    private CurveLimits() {}

    /**
     * @param caseNumber at least 1
     * @param level nominal coverage, between 0 and 1
     * @return in the unit of the values; refused where the curve has no value there
     */
    public static Outcome<Interval> at(LearningFit fit, double caseNumber, double level) {
        double[] parameters = fit.fit().parameters();
        double[] gradient = new double[parameters.length];
        double value = fit.model().value(caseNumber, parameters, gradient);
        boolean logs = fit.series().scale() == CaseSeries.Scale.LOG;
        if (!Double.isFinite(value) || (logs && !(value > 0))) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    "the curve has no value at case " + caseNumber,
                    "ask within the cases that it was fitted to");
        }
        double variance = 0;
        for (int i = 0; i < gradient.length; i++) {
            for (int j = 0; j < gradient.length; j++) {
                variance += gradient[i] * gradient[j] * fit.fit().correlations()[i][j] * se(fit, i) * se(fit, j);
            }
        }
        double half = Math.sqrt(Math.max(0, variance))
                * new TDistribution(fit.fit().df()).inverseCumulativeProbability(0.5 + level / 2);
        return Outcome.of(
                logs
                        ? new Interval(value * Math.exp(-half / value), value * Math.exp(half / value), level)
                        : new Interval(value - half, value + half, level));
    }

    private static double se(LearningFit fit, int parameter) {
        Coefficient coefficient = fit.fit().coefficients().get(parameter);
        return coefficient.se();
    }
}
