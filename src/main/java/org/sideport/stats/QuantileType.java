package org.sideport.stats;

/**
 * The nine definitions of a sample quantile of Hyndman & Fan 1996, The American Statistician 50:361, with their numbers.
 * Types 1 to 3 take observed values only, types 4 to 9 interpolate between neighbours. Ranks lie between 1 and n; a rank
 * beyond them gives the smallest or largest value.
 */
public enum QuantileType {
    /** Inverse of the empirical distribution function. */
    INVERTED_CDF(1, 0, 0),
    /** As type 1, with the mean of both neighbours where the distribution function has a step. */
    AVERAGED_INVERTED_CDF(2, 0, 0),
    /** The nearest observation, the even one of two that are equally near. */
    NEAREST_EVEN(3, 0, 0),
    /** Linear between the steps of the empirical distribution function. */
    LINEAR_CDF(4, 0, 1),
    /** Midpoints of the steps; common in hydrology. */
    HAZEN(5, 0.5, 0.5),
    /** Position (n + 1) p: expected position of uniform order statistics. */
    WEIBULL(6, 0, 0),
    /** Position (n − 1) p + 1: mode of the position; the default of spreadsheets and of R, and Sideport's. */
    LINEAR(7, 1, 1),
    /** Position (n + 1/3) p + 1/3: median-unbiased whatever the distribution; what the paper recommends. */
    MEDIAN_UNBIASED(8, 1.0 / 3, 1.0 / 3),
    /** Position (n + 1/4) p + 3/8: unbiased for normal samples. */
    NORMAL_UNBIASED(9, 3.0 / 8, 3.0 / 8);

    /** A position that misses a whole number by rounding only counts as that number. */
    private static final double FUZZ = 4 * Math.ulp(1.0);

    private final int number;
    private final double alpha;
    private final double beta;

    QuantileType(int number, double alpha, double beta) {
        this.number = number;
        this.alpha = alpha;
        this.beta = beta;
    }

    /**
     * @param number 1 to 9
     * @throws IllegalArgumentException if there is no such type
     */
    public static QuantileType ofNumber(int number) {
        if (number < 1 || number > values().length) {
            throw new IllegalArgumentException("quantile types are 1 to 9, not " + number);
        }
        return values()[number - 1];
    }

    /** As in the paper. */
    public int number() {
        return number;
    }

    /**
     * @param sorted at least one value, ascending
     * @param p 0 to 1
     */
    double quantile(double[] sorted, double p) {
        int n = sorted.length;
        double position =
                switch (this) {
                    case INVERTED_CDF, AVERAGED_INVERTED_CDF -> n * p;
                    case NEAREST_EVEN -> n * p - 0.5;
                    case LINEAR_CDF -> n * p;
                    default -> alpha + p * (n + 1 - alpha - beta);
                };
        double fuzz = FUZZ * Math.max(1, Math.abs(position));
        int below = (int) Math.floor(position + fuzz);
        double rest = position - below;
        if (Math.abs(rest) < fuzz) {
            rest = 0;
        }
        double weight =
                switch (this) {
                    case INVERTED_CDF -> rest > 0 ? 1 : 0;
                    case AVERAGED_INVERTED_CDF -> rest > 0 ? 1 : 0.5;
                    case NEAREST_EVEN -> rest == 0 && below % 2 == 0 ? 0 : 1;
                    default -> rest;
                };
        double lower = sorted[Math.min(Math.max(below, 1), n) - 1];
        double upper = sorted[Math.min(Math.max(below + 1, 1), n) - 1];
        return between(lower, upper, weight);
    }

    /** Infinite neighbours must not give NaN, which ∞ − ∞ and 0 · ∞ would. */
    private static double between(double lower, double upper, double weight) {
        if (weight == 0 || lower == upper) {
            return lower;
        }
        if (weight == 1) {
            return upper;
        }
        if (Double.isInfinite(lower)) {
            return Double.isInfinite(upper) && weight >= 0.5 ? upper : lower;
        }
        return lower + weight * (upper - lower);
    }
}
