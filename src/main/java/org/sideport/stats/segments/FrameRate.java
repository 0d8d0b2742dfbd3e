package org.sideport.stats.segments;

/**
 * Frames a second as a ratio, for instance 25/1 or 30000/1001. Frame {@code i} is shown from time {@code i / rate} on.
 *
 * @param numerator 1 to 1 000 000
 * @param denominator 1 to 1 000 000
 */
public record FrameRate(int numerator, int denominator) {

    private static final int LARGEST = 1_000_000;

    public FrameRate {
        if (numerator < 1 || denominator < 1 || numerator > LARGEST || denominator > LARGEST) {
            throw new IllegalArgumentException(numerator + "/" + denominator + " is no frame rate");
        }
    }

    /** How many frames begin at or after {@code fromUs} and before {@code toUs}; times are not negative. */
    long framesFrom(long fromUs, long toUs) {
        return framesBefore(toUs) - framesBefore(fromUs);
    }

    private long framesBefore(long us) {
        long unit = 1_000_000L * denominator;
        // whole units apart, so that days of video at any rate stay within 64 bits
        return us / unit * numerator + (us % unit * numerator + unit - 1) / unit;
    }
}
