package org.sideport.stats.resample;

import java.util.List;
import org.sideport.stats.Interval;

/**
 * Bias-corrected and accelerated limits with what they were made of.
 *
 * @param z0 bias correction, in standard normal units; 0 where as many resamples lie below the estimate as above
 * @param acceleration change of the standard error with the parameter, on the scale of Efron 1987
 * @param lowerShare share of the resampling distribution at which the lower limit was read; half the error if there were
 *     neither bias nor acceleration
 * @param upperShare likewise
 * @param resamples those that gave a number
 * @param warnings sentences for people
 */
public record BcaLimits(
        Interval limits,
        double z0,
        double acceleration,
        double lowerShare,
        double upperShare,
        int resamples,
        List<String> warnings) {

    public BcaLimits {
        warnings = List.copyOf(warnings);
    }
}
