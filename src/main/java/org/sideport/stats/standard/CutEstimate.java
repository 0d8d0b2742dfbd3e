package org.sideport.stats.standard;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.resample.BcaLimits;
import org.sideport.stats.resample.Bootstrap;

/** What all methods share: a cut with its standard error and bootstrap limits. */
final class CutEstimate {

    private CutEstimate() {}

    /**
     * BCa limits; where they cannot be had the cut stands without limits, and says why.
     *
     * @param units what is resampled
     */
    static Estimate of(
            double value,
            @Nullable Double se,
            int units,
            String method,
            List<String> warnings,
            Bootstrap bootstrap,
            Bootstrap.Statistic statistic) {
        List<String> all = new ArrayList<>(warnings);
        Outcome<BcaLimits> outcome = bootstrap.bcaDetail(units, statistic);
        @Nullable Interval limits = null;
        if (outcome instanceof Outcome.Found<BcaLimits> found) {
            limits = found.value().limits();
            all.addAll(found.value().warnings());
        } else {
            all.add("There are no limits: "
                    + ((Outcome.Refused<BcaLimits>) outcome).refusal().why() + ".");
        }
        return new Estimate(value, se, limits, units, method, all);
    }
}
