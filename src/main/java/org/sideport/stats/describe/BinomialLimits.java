package org.sideport.stats.describe;

import org.hipparchus.distribution.continuous.BetaDistribution;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.sideport.stats.Interval;

/** Two-sided confidence limits of a share, {@code count} of {@code n} independent trials with one probability. */
public enum BinomialLimits {
    /**
     * By inverting the score test (Wilson 1927, Journal of the American Statistical Association 22:209, without continuity
     * correction; method 3 of Newcombe 1998, Statistics in Medicine 17:857): near the nominal coverage on average.
     */
    WILSON {
        @Override
        public double lower(int count, int n, double level) {
            return count == 0 ? 0 : score(count, n, -z(level));
        }

        @Override
        public double upper(int count, int n, double level) {
            return count == n ? 1 : score(count, n, z(level));
        }
    },
    /**
     * By inverting the binomial test (Clopper & Pearson 1934, Biometrika 26:404): never below the nominal coverage, hence
     * wider.
     */
    CLOPPER_PEARSON {
        @Override
        public double lower(int count, int n, double level) {
            return count == 0
                    ? 0
                    : new BetaDistribution(count, n - count + 1.0).inverseCumulativeProbability(tail(level));
        }

        @Override
        public double upper(int count, int n, double level) {
            return count == n
                    ? 1
                    : new BetaDistribution(count + 1.0, n - count).inverseCumulativeProbability(1 - tail(level));
        }
    };

    /** @param level nominal coverage of the two-sided interval, for instance 0.95 */
    public abstract double lower(int count, int n, double level);

    /** @param level nominal coverage of the two-sided interval, for instance 0.95 */
    public abstract double upper(int count, int n, double level);

    /**
     * @param count 0 to {@code n}
     * @param n at least 1
     * @throws IllegalArgumentException if the counts are impossible
     */
    public Interval of(int count, int n, double level) {
        if (n < 1 || count < 0 || count > n) {
            throw new IllegalArgumentException(count + " of " + n);
        }
        return new Interval(lower(count, n, level), upper(count, n, level), level);
    }

    private static double score(double count, double n, double z) {
        double share = count / n;
        double middle = share + z * z / (2 * n);
        double half = z * Math.sqrt(share * (1 - share) / n + z * z / (4 * n * n));
        return (middle + half) / (1 + z * z / n);
    }

    private static double z(double level) {
        return new NormalDistribution().inverseCumulativeProbability(1 - tail(level));
    }

    private static double tail(double level) {
        return (1 - level) / 2;
    }
}
