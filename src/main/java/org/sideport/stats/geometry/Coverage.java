package org.sideport.stats.geometry;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * How many standard errors limits lie from a value: normal, or Student's with Welch and Satterthwaite's degrees of freedom
 * (JCGM 100:2008, G.4.1) where parts of the variance are estimated and the rest is known.
 */
final class Coverage {

    /** More degrees of freedom make no difference to the limits. */
    private static final double NORMAL = 1e6;

    private final double level;
    private final double variance;
    private double sum;

    /**
     * @param level nominal coverage
     * @param variance all of it
     */
    Coverage(double level, double variance) {
        this.level = level;
        this.variance = variance;
    }

    /**
     * @param part of the variance
     * @param freedom degrees of freedom that it was estimated with; 0 if it is known
     */
    Coverage estimated(double part, int freedom) {
        if (freedom > 0) {
            sum += part * part / freedom;
        }
        return this;
    }

    double factor() {
        double p = 0.5 + level / 2;
        double effective = sum > 0 ? variance * variance / sum : Double.POSITIVE_INFINITY;
        return effective < NORMAL
                ? new TDistribution(effective).inverseCumulativeProbability(p)
                : new NormalDistribution().inverseCumulativeProbability(p);
    }
}
