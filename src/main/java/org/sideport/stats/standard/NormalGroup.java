package org.sideport.stats.standard;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.describe.Moments;

/**
 * Scores of a group as a normal curve.
 *
 * @param n number of scores; {@code null} if a publication does not say
 * @param mean points
 * @param sd points, above 0
 */
public record NormalGroup(@Nullable Integer n, double mean, double sd) {

    public NormalGroup {
        if (!Double.isFinite(mean) || !(sd > 0) || Double.isInfinite(sd)) {
            throw new IllegalArgumentException("no normal curve has mean " + mean + " and SD " + sd);
        }
    }

    /** {@code null} if there are fewer than 2 scores or they are all equal. */
    static @Nullable NormalGroup of(double[] scores) {
        if (scores.length < 2) {
            return null;
        }
        Moments moments = Moments.of(scores);
        @Nullable Double sd = moments.sd();
        return sd == null || sd == 0 ? null : new NormalGroup(scores.length, moments.mean(), sd);
    }
}
