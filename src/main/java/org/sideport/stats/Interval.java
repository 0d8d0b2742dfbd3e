package org.sideport.stats;

/**
 * Confidence limits.
 *
 * @param lower may be −∞, not NaN
 * @param upper at least {@code lower}; may be +∞
 * @param level the nominal coverage, between 0 and 1, for instance 0.95
 */
public record Interval(double lower, double upper, double level) {

    public Interval {
        if (!(lower <= upper)) {
            throw new IllegalArgumentException("limits " + lower + " and " + upper);
        }
        if (!(level > 0 && level < 1)) {
            throw new IllegalArgumentException("level " + level + " is not between 0 and 1");
        }
    }

    public boolean contains(double value) {
        return value >= lower && value <= upper;
    }
}
