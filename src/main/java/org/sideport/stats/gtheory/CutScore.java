package org.sideport.stats.gtheory;

import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * How safe a pass/fail decision at a cut score is.
 *
 * @param phiLambda Φ(λ) of Brennan & Kane 1977, Journal of Educational Measurement 14:277: {@code (U + d²) / (U + d² +
 *     E)}, with universe score variance U, absolute error variance E and distance d of the mean from the cut. From data d²
 *     is lessened by the variance of the mean, so that it is unbiased, and not below 0
 * @param consistency probability that two parallel assessments of one person lead to the same decision
 * @param accuracy probability that an assessment decides as the universe score would
 * @param passRate probability that a person of this population passes
 */
public record CutScore(double phiLambda, double consistency, double accuracy, double passRate) {

    private static final int NODES = 64;

    /**
     * Normal model: universe scores and absolute errors are normal and independent, so that two parallel assessments are
     * bivariate normal with correlation Φ, and an assessment and the universe score with √Φ (the normal form of the
     * consistency index of Subkoviak 1976, Journal of Educational Measurement 13:265; Peng & Subkoviak 1980, ibid. 17:359,
     * memory).
     *
     * @param mean of the population, unit of the score
     * @param meanVariance variance of that estimate; 0 if the mean is taken as known
     * @param cut pass at or above, unit of the score
     */
    public static CutScore of(DStudy.Coefficients c, double mean, double meanVariance, double cut) {
        double distance = Math.max((mean - cut) * (mean - cut) - meanVariance, 0);
        double signal = c.universe() + distance;
        double observed = (cut - mean) / Math.sqrt(c.universe() + c.absoluteError());
        double universe = (cut - mean) / Math.sqrt(c.universe());
        NormalDistribution normal = new NormalDistribution();
        double belowObserved = normal.cumulativeProbability(observed);
        double belowUniverse = normal.cumulativeProbability(universe);
        double bothBelow = bothBelow(observed, observed, c.phi());
        double rightlyBelow = bothBelow(universe, observed, Math.sqrt(c.phi()));
        return new CutScore(
                signal / (signal + c.absoluteError()),
                1 - 2 * (belowObserved - bothBelow),
                1 - belowObserved - belowUniverse + 2 * rightlyBelow,
                1 - belowObserved);
    }

    /**
     * P(X ≤ h, Y ≤ k) of standard normal variables: Plackett's identity (1954, Biometrika 41:351) with correlation sin t,
     * by Gauss-Legendre quadrature over t; {@code correlation} 0 to 1.
     */
    static double bothBelow(double h, double k, double correlation) {
        NormalDistribution normal = new NormalDistribution();
        if (correlation >= 1) {
            return normal.cumulativeProbability(Math.min(h, k));
        }
        if (correlation <= 0) {
            return normal.cumulativeProbability(h) * normal.cumulativeProbability(k);
        }
        GaussIntegrator integrator = new GaussIntegratorFactory(NODES).legendre(NODES, 0, Math.asin(correlation));
        double integral = integrator.integrate(t -> {
            double cos = Math.cos(t);
            return Math.exp(-(h * h + k * k - 2 * h * k * Math.sin(t)) / (2 * cos * cos));
        });
        return normal.cumulativeProbability(h) * normal.cumulativeProbability(k) + integral / (2 * Math.PI);
    }
}
