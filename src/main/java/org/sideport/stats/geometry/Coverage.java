package org.sideport.stats.geometry;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/** How many standard errors limits lie from a value. */
final class Coverage {

    /** More degrees of freedom make no difference to the limits. */
    private static final double NORMAL = 1e6;

    private Coverage() {}

    /**
     * Normal, or Student's with Welch and Satterthwaite's degrees of freedom (JCGM 100:2008, G.4.1) where one part of the
     * variance is estimated and the rest is known.
     *
     * @param level nominal coverage
     * @param share of the variance that is estimated, 0 to 1
     * @param freedom degrees of freedom of that part; 0 if it is known too
     */
    static double factor(double level, double share, int freedom) {
        double p = 0.5 + level / 2;
        double effective = freedom > 0 ? freedom / (share * share) : Double.POSITIVE_INFINITY;
        return effective < NORMAL
                ? new TDistribution(effective).inverseCumulativeProbability(p)
                : new NormalDistribution().inverseCumulativeProbability(p);
    }
}
