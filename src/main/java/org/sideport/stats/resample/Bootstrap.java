package org.sideport.stats.resample;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.QuantileType;
import org.sideport.stats.Quantiles;
import org.sideport.stats.Refusal;

/**
 * Bootstrap limits by resampling units with replacement. The same seed gives the same limits on every machine. Units must
 * be independent: resample subjects, not their repeated measurements. Immutable.
 *
 * <p>Limits are read at position {@code (B + 1) p} of the {@code B} ordered resamples (Davison & Hinkley 1997, Bootstrap
 * Methods and their Application, section 5.2.1), interpolated linearly.
 *
 * @param resamples at least 100; 2 000 or more for 95 % limits
 * @param seed of the generator
 * @param level nominal coverage, for instance 0.95
 */
public record Bootstrap(int resamples, long seed, double level) {

    /** A statistic of resampled units: gets the indices drawn, of length n, and must not keep or change them. */
    @FunctionalInterface
    public interface Statistic {
        /** May be NaN where a resample does not allow the statistic; such a resample is left out. */
        double of(int[] indices);
    }

    public Bootstrap {
        if (resamples < 100) {
            throw new IllegalArgumentException(resamples + " resamples are too few; take 100 or more");
        }
        if (!(level > 0 && level < 1)) {
            throw new IllegalArgumentException("level " + level + " is not between 0 and 1");
        }
    }

    /**
     * The limits of {@link #bcaDetail} alone.
     *
     * @param units number of independent units, for instance subjects
     */
    public Outcome<Interval> bca(int units, Statistic statistic) {
        return bcaDetail(units, statistic).map(BcaLimits::limits);
    }

    /**
     * Bias-corrected and accelerated limits (Efron 1987, Journal of the American Statistical Association 82:171; Efron &
     * Tibshirani 1993, An Introduction to the Bootstrap, equations 14.9 to 14.15), the acceleration from the jackknife.
     * Resamples equal to the estimate count half as below it, which matters for statistics with few values.
     *
     * @param units number of independent units, for instance subjects
     * @return refused below three units, or if the statistic does not exist for the data or for half the resamples
     */
    public Outcome<BcaLimits> bcaDetail(int units, Statistic statistic) {
        if (units < 3) {
            return tooFew(units);
        }
        double estimate = statistic.of(identity(units));
        if (!Double.isFinite(estimate)) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA, "the statistic does not exist for these data", "check the data");
        }
        return sorted(units, statistic).map(replicates -> bca(units, statistic, estimate, replicates));
    }

    private BcaLimits bca(int units, Statistic statistic, double estimate, double[] replicates) {
        int kept = replicates.length;
        List<String> warnings = new ArrayList<>();
        if (kept < resamples) {
            warnings.add("In " + (resamples - kept) + " of " + resamples
                    + " resamples the statistic does not exist; the limits rest on the others.");
        }
        if (replicates[0] == replicates[kept - 1]) {
            warnings.add("All resamples gave the same number: the limits say nothing of the uncertainty.");
            double only = replicates[0];
            double half = (1 - level) / 2;
            return new BcaLimits(new Interval(only, only, level), 0, 0, half, 1 - half, kept, warnings);
        }
        NormalDistribution normal = new NormalDistribution();
        double below = 0;
        for (double replicate : replicates) {
            below += replicate < estimate ? 1 : replicate == estimate ? 0.5 : 0;
        }
        // Half a replicate at either end keeps z0 finite where all replicates lie on one side.
        double z0 = normal.inverseCumulativeProbability(Math.min(Math.max(below, 0.5), kept - 0.5) / kept);
        @Nullable Double jackknife = acceleration(units, statistic);
        if (jackknife == null) {
            warnings.add("Leaving one unit out does not always allow the statistic: the limits are corrected for bias"
                    + " but not for acceleration.");
        }
        double acceleration = jackknife == null ? 0 : jackknife;
        double z = normal.inverseCumulativeProbability(0.5 + level / 2);
        double lowerShare = adjusted(normal, z0, acceleration, -z);
        double upperShare = adjusted(normal, z0, acceleration, z);
        double outermost = 1.0 / (kept + 1);
        if (lowerShare < outermost || upperShare > 1 - outermost) {
            warnings.add("A limit lies at the very end of the " + kept
                    + " resamples and is not to be relied on; take more resamples.");
        }
        Interval limits = new Interval(
                Quantiles.ofSorted(replicates, lowerShare, QuantileType.WEIBULL),
                Quantiles.ofSorted(replicates, upperShare, QuantileType.WEIBULL),
                level);
        return new BcaLimits(limits, z0, acceleration, lowerShare, upperShare, kept, warnings);
    }

    /**
     * Percentile limits (Efron & Tibshirani 1993, equation 13.5), for statistics whose jackknife costs too much.
     *
     * @return refused below three units, or if the statistic does not exist for half the resamples
     */
    public Outcome<Interval> percentile(int units, Statistic statistic) {
        if (units < 3) {
            return tooFew(units);
        }
        return sorted(units, statistic)
                .map(replicates -> new Interval(
                        Quantiles.ofSorted(replicates, 0.5 - level / 2, QuantileType.WEIBULL),
                        Quantiles.ofSorted(replicates, 0.5 + level / 2, QuantileType.WEIBULL),
                        level));
    }

    private static <T> Outcome<T> tooFew(int units) {
        return Outcome.refused(
                Refusal.Reason.TOO_FEW,
                units == 1 ? "there is only 1 unit to resample" : "there are only " + units + " units to resample",
                "collect at least 3");
    }

    /** The statistic of each resample that allows it, ascending. */
    private Outcome<double[]> sorted(int units, Statistic statistic) {
        SplitMix random = new SplitMix(seed);
        int[] indices = new int[units];
        double[] found = new double[resamples];
        int kept = 0;
        for (int b = 0; b < resamples; b++) {
            for (int i = 0; i < units; i++) {
                indices[i] = random.below(units);
            }
            double value = statistic.of(indices);
            if (!Double.isNaN(value)) {
                found[kept++] = value;
            }
        }
        if (kept < (resamples + 1) / 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "in " + (resamples - kept) + " of " + resamples + " resamples the statistic does not exist",
                    "collect more data");
        }
        double[] replicates = Arrays.copyOf(found, kept);
        Arrays.sort(replicates);
        return Outcome.of(replicates);
    }

    /** Efron & Tibshirani 1993, equation 14.15; {@code null} if the statistic does not exist without some unit. */
    private static @Nullable Double acceleration(int units, Statistic statistic) {
        double[] left = new double[units];
        int[] indices = new int[units - 1];
        double mean = 0;
        for (int out = 0; out < units; out++) {
            for (int i = 0, k = 0; i < units; i++) {
                if (i != out) {
                    indices[k++] = i;
                }
            }
            left[out] = statistic.of(indices);
            mean += left[out] / units;
        }
        if (!Double.isFinite(mean)) {
            return null;
        }
        double largest = 0;
        for (double value : left) {
            largest = Math.max(largest, Math.abs(mean - value));
        }
        if (largest == 0) {
            return 0.0;
        }
        double squares = 0;
        double cubes = 0;
        for (double value : left) {
            // in units of the largest, so that neither tiny nor huge statistics leave the range of numbers
            double d = (mean - value) / largest;
            squares += d * d;
            cubes += d * d * d;
        }
        return cubes / (6 * squares * Math.sqrt(squares));
    }

    /**
     * Equation 14.10. Where {@code 1 − a (z0 + z)} is not positive the formula has passed its pole; its limit there is all
     * or nothing.
     */
    private static double adjusted(NormalDistribution normal, double z0, double a, double z) {
        double shift = z0 + z;
        double stretch = 1 - a * shift;
        if (stretch <= 0) {
            return shift > 0 ? 1 : 0;
        }
        return normal.cumulativeProbability(z0 + shift / stretch);
    }

    private static int[] identity(int units) {
        int[] indices = new int[units];
        for (int i = 0; i < units; i++) {
            indices[i] = i;
        }
        return indices;
    }
}
