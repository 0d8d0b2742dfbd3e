package org.sideport.stats.casemix;

import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;

/**
 * A fitted logistic model.
 *
 * @param n cases
 * @param events cases with the event
 * @param coefficients the intercept, then the terms in the order of the data
 * @param covariance of the coefficients, by the inverse information; not to be changed
 * @param logLikelihood at the estimates, without penalty
 * @param deviance −2 log-likelihood
 * @param nullDeviance of the model with the intercept alone, by maximum likelihood
 * @param risk fitted probability of each case; not to be changed
 * @param separation found in the data; other than {@code NONE} only with Firth's method
 * @param steps of the iteration
 */
@SuppressWarnings("ArrayRecordComponent")
public record LogisticFit(
        LogisticMethod method,
        int n,
        int events,
        List<Coefficient> coefficients,
        double[][] covariance,
        double logLikelihood,
        double deviance,
        double nullDeviance,
        double[] risk,
        Separation separation,
        int steps,
        List<String> warnings) {

    public LogisticFit {
        coefficients = List.copyOf(coefficients);
        warnings = List.copyOf(warnings);
    }

    /** Akaike's criterion; {@code null} unless by maximum likelihood. */
    public @Nullable Double aic() {
        return method == LogisticMethod.MAXIMUM_LIKELIHOOD ? (Double) (deviance + 2 * coefficients.size()) : null;
    }

    /**
     * @throws IllegalArgumentException if there is none
     */
    public Coefficient coefficient(String name) {
        return coefficients.stream()
                .filter(c -> c.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no coefficient " + name));
    }

    /**
     * The probability of the event for a case, its standard error by the delta method and limits that are symmetric in the
     * log odds, hence within 0 to 1.
     *
     * @param terms a value for each term, in the order of the coefficients after the intercept
     */
    public Estimate predict(double[] terms, double level) {
        int k = coefficients.size();
        if (terms.length != k - 1) {
            throw new IllegalArgumentException(terms.length + " values for " + (k - 1) + " terms");
        }
        double[] x = new double[k];
        x[0] = 1;
        System.arraycopy(terms, 0, x, 1, k - 1);
        double eta = 0;
        double variance = 0;
        for (int a = 0; a < k; a++) {
            eta += x[a] * coefficients.get(a).estimate();
            for (int b = 0; b < k; b++) {
                variance += x[a] * x[b] * covariance[a][b];
            }
        }
        double se = Math.sqrt(Math.max(variance, 0));
        double z = new NormalDistribution().inverseCumulativeProbability(0.5 + level / 2);
        double p = LogisticLikelihood.probability(eta);
        return new Estimate(
                p,
                se * p * LogisticLikelihood.probability(-eta),
                new Interval(
                        LogisticLikelihood.probability(eta - z * se),
                        LogisticLikelihood.probability(eta + z * se),
                        level),
                n,
                method.words(),
                List.of());
    }
}
