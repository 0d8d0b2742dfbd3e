package org.sideport.stats.casemix;

import org.hipparchus.special.Gamma;

/** The upper tail of chi-square, right also where it is tiny. */
final class ChiSquare {

    private ChiSquare() {}

    static double upperTail(double value, int degreesOfFreedom) {
        return value <= 0 ? 1 : Gamma.regularizedGammaQ(degreesOfFreedom / 2.0, value / 2);
    }
}
