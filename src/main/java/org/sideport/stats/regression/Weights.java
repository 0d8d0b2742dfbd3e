package org.sideport.stats.regression;

import org.jspecify.annotations.Nullable;

/** Weights of observations. */
final class Weights {

    private Weights() {}

    /**
     * How many of n observations count.
     *
     * @throws IllegalArgumentException if there are not n weights, or one is negative or not finite
     */
    static int counted(double @Nullable [] weights, int n) {
        if (weights == null) {
            return n;
        }
        if (weights.length != n) {
            throw new IllegalArgumentException(weights.length + " weights for " + n + " observations");
        }
        int counted = 0;
        for (double w : weights) {
            if (!(w >= 0) || Double.isInfinite(w)) {
                throw new IllegalArgumentException("weight " + w);
            }
            counted += w > 0 ? 1 : 0;
        }
        return counted;
    }
}
