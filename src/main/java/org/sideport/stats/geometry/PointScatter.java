package org.sideport.stats.geometry;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * How far marked points lie from the fitted line, and what error of marking the uncertainties are made from.
 *
 * @param points number of points
 * @param degreesOfFreedom points less parameters
 * @param rms root of the sum of squared distances over the degrees of freedom; {@code null} without one
 * @param clickSd standard deviation of a mark across the edge that the uncertainties rest on
 * @param estimated whether that is {@code rms} and not given
 * @param warnings sentences for people
 */
public record PointScatter(
        int points,
        int degreesOfFreedom,
        @Nullable Double rms,
        double clickSd,
        boolean estimated,
        List<String> warnings) {

    private static final double SURPRISING = 0.01;

    public PointScatter {
        warnings = List.copyOf(warnings);
    }

    /** @param given {@code null} if the scatter of the points themselves is to tell */
    static Outcome<PointScatter> of(int points, int parameters, double sumOfSquares, @Nullable Double given) {
        int freedom = points - parameters;
        Double rms = freedom > 0 ? (Double) Math.sqrt(sumOfSquares / freedom) : null;
        List<String> warnings = new ArrayList<>();
        if (given != null) {
            if (freedom > 0
                    && given > 0
                    && 1 - new ChiSquaredDistribution(freedom).cumulativeProbability(sumOfSquares / (given * given))
                            < SURPRISING) {
                warnings.add("The points lie further from the fitted line than an error of marking of " + given
                        + " explains: the edge has another shape, or the marking was less exact.");
            }
            return Outcome.of(new PointScatter(points, freedom, rms, given, false, warnings));
        }
        if (rms == null) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    points + " points fit exactly, so that nothing tells how exactly they were marked",
                    "mark more points, or give the error of a click");
        }
        if (freedom < 5) {
            warnings.add("Only " + points + " points: the uncertainty is itself uncertain; mark ten or more.");
        }
        return Outcome.of(new PointScatter(points, freedom, rms, rms, true, warnings));
    }
}
