package org.sideport.stats.describe;

import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/** The mean of independent values with Student's limits (NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.2). */
public final class MeanLimits {

    private static final int FEWEST = 3;

    private MeanLimits() {}

    /**
     * @param values finite
     * @param level nominal coverage, between 0 and 1
     * @return refused below 3 values, or if all are equal
     */
    public static Outcome<Estimate> of(double[] values, double level) {
        if (values.length < FEWEST) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    values.length == 1 ? "there is 1 value" : "there are " + values.length + " values",
                    "collect at least " + FEWEST);
        }
        Moments moments = Moments.of(values);
        @Nullable Double sd = moments.sd();
        if (sd == null || sd == 0) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION, "all " + values.length + " values are equal", "collect more values");
        }
        double se = sd / Math.sqrt(values.length);
        double half = se * new TDistribution(values.length - 1.0).inverseCumulativeProbability(0.5 + level / 2);
        return Outcome.of(new Estimate(
                moments.mean(),
                se,
                new Interval(moments.mean() - half, moments.mean() + half, level),
                values.length,
                "mean, limits by Student's t",
                List.of()));
    }
}
