package org.sideport.stats.resample;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Quantiles;
import org.sideport.stats.Refusal;

/**
 * Bootstrap limits by resampling units with replacement. The same seed gives the same limits on every machine. Immutable.
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
     * Bias-corrected and accelerated limits (Efron 1987, Journal of the American Statistical Association 82:171; Efron &
     * Tibshirani 1993, An Introduction to the Bootstrap, equations 14.9 to 14.15), the acceleration from the jackknife.
     * Resample quantiles are of type 7.
     *
     * @param units number of independent units, for instance subjects
     */
    public Outcome<Interval> bca(int units, Statistic statistic) {
        if (units < 3) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW, "there are only " + units + " units to resample", "collect at least 3");
        }
        double estimate = statistic.of(identity(units));
        if (Double.isNaN(estimate)) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA, "the statistic does not exist for these data", "check the data");
        }
        double[] replicates = replicates(units, statistic);
        if (replicates.length < resamples / 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "in " + (resamples - replicates.length) + " of " + resamples
                            + " resamples the statistic does not exist",
                    "collect more data");
        }
        Arrays.sort(replicates);
        if (replicates[0] == replicates[replicates.length - 1]) {
            return Outcome.of(new Interval(replicates[0], replicates[0], level));
        }
        NormalDistribution normal = new NormalDistribution();
        double below = 0;
        for (double replicate : replicates) {
            below += replicate < estimate ? 1 : replicate == estimate ? 0.5 : 0;
        }
        // Half a replicate at either end keeps z0 finite where all replicates lie on one side.
        double share = Math.min(Math.max(below, 0.5), replicates.length - 0.5) / replicates.length;
        double z0 = normal.inverseCumulativeProbability(share);
        double acceleration = acceleration(units, statistic);
        double z = normal.inverseCumulativeProbability(0.5 + level / 2);
        double lower = Quantiles.type7Sorted(replicates, adjusted(normal, z0, acceleration, -z));
        double upper = Quantiles.type7Sorted(replicates, adjusted(normal, z0, acceleration, z));
        return Outcome.of(new Interval(Math.min(lower, upper), Math.max(lower, upper), level));
    }

    /** Percentile limits (Efron & Tibshirani 1993, equation 13.5), for statistics whose jackknife costs too much. */
    public Outcome<Interval> percentile(int units, Statistic statistic) {
        if (units < 3) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW, "there are only " + units + " units to resample", "collect at least 3");
        }
        double[] replicates = replicates(units, statistic);
        if (replicates.length < resamples / 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "in " + (resamples - replicates.length) + " of " + resamples
                            + " resamples the statistic does not exist",
                    "collect more data");
        }
        Arrays.sort(replicates);
        return Outcome.of(new Interval(
                Quantiles.type7Sorted(replicates, 0.5 - level / 2),
                Quantiles.type7Sorted(replicates, 0.5 + level / 2),
                level));
    }

    private double[] replicates(int units, Statistic statistic) {
        SplittableRandom random = new SplittableRandom(seed);
        int[] indices = new int[units];
        double[] found = new double[resamples];
        int kept = 0;
        for (int b = 0; b < resamples; b++) {
            for (int i = 0; i < units; i++) {
                indices[i] = random.nextInt(units);
            }
            double value = statistic.of(indices);
            if (!Double.isNaN(value)) {
                found[kept++] = value;
            }
        }
        return Arrays.copyOf(found, kept);
    }

    private static double acceleration(int units, Statistic statistic) {
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
        double squares = 0;
        double cubes = 0;
        for (double value : left) {
            double d = mean - value;
            squares += d * d;
            cubes += d * d * d;
        }
        double a = cubes / (6 * Math.pow(squares, 1.5));
        return Double.isFinite(a) ? a : 0;
    }

    private static double adjusted(NormalDistribution normal, double z0, double a, double z) {
        double shift = z0 + z;
        return normal.cumulativeProbability(z0 + shift / (1 - a * shift));
    }

    private static int[] identity(int units) {
        int[] indices = new int[units];
        for (int i = 0; i < units; i++) {
            indices[i] = i;
        }
        return indices;
    }
}
