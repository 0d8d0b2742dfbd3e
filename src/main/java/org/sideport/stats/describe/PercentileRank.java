package org.sideport.stats.describe;

import java.util.ArrayList;
import java.util.List;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Where a value stands within a reference sample: the share of the sample below it, an equal value counting half
 * (definition of Crawford, Garthwaite & Slick 2009, The Clinical Neuropsychologist 23:1173), with limits for the share of
 * the population that the sample was drawn from. The limits assume independent draws; several cases of one surgeon are
 * not, and make them too narrow.
 */
public final class PercentileRank {

    private static final int FEW = 20;

    private PercentileRank() {}

    /**
     * The lower limit is that of the share below the value, the upper one that of the share up to and including it, so
     * that ties widen the interval.
     *
     * @param value finite
     * @param reference finite values, any order
     * @param limits how the limits are found
     * @param level nominal coverage, for instance 0.95
     * @return estimate and limits as shares, 0 to 1; refused without a reference
     */
    public static Outcome<Estimate> of(double value, double[] reference, BinomialLimits limits, double level) {
        int n = reference.length;
        if (n == 0) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW, "the reference sample is empty", "give the values to compare with");
        }
        int below = 0;
        int equal = 0;
        for (double other : reference) {
            if (other < value) {
                below++;
            } else if (other == value) {
                equal++;
            }
        }
        List<String> warnings = new ArrayList<>();
        if (n < FEW) {
            warnings.add(
                    "The reference holds only " + n + " values: the percentile is coarse and its limits are wide.");
        }
        if (below + equal == 0 || below == n) {
            warnings.add("The value lies outside the reference, which cannot say how far out in the population it is.");
        }
        Interval interval = new Interval(
                limits.of(below, n, level).lower(),
                limits.of(below + equal, n, level).upper(),
                level);
        return Outcome.of(new Estimate(
                (below + 0.5 * equal) / n,
                null,
                interval,
                n,
                limits == BinomialLimits.WILSON
                        ? "share below, ties half; Wilson limits"
                        : "share below, ties half; Clopper-Pearson limits",
                warnings));
    }
}
