package org.sideport.stats.describe;

/**
 * A mean with more digits than one number holds, so that deviations from it are right where the values share most of
 * their leading digits (the constant-leading-digits problem of Simon & Lesage 1989, Computational Statistics & Data
 * Analysis 8:325).
 *
 * @param high the mean rounded
 * @param low what the rounding lost
 */
record Centre(double high, double low) {

    static Centre of(double[] values) {
        return of(ExactSum.of(values), values.length);
    }

    static Centre of(ExactSum sum, int n) {
        double high = sum.value() / n;
        double low = (Math.fma(-high, n, sum.value()) + sum.tail()) / n;
        return new Centre(high, low);
    }

    double deviation(double value) {
        return (value - high) - low;
    }

    double difference(Centre other) {
        return (high - other.high) + (low - other.low);
    }
}
