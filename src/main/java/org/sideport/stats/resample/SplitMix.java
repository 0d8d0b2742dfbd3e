package org.sideport.stats.resample;

/**
 * SplitMix64 (Steele, Lea & Flood 2014, Fast splittable pseudorandom number generators, OOPSLA), with its bounded draws
 * written out. The JDK's generator of the same family may change how it draws below a bound; here the same seed gives the
 * same resamples on every machine and JDK.
 */
final class SplitMix {

    private static final long GOLDEN = 0x9E3779B97F4A7C15L;

    private long state;

    SplitMix(long seed) {
        state = seed;
    }

    long next() {
        long z = state += GOLDEN;
        z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
        z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
        return z ^ (z >>> 31);
    }

    /**
     * Uniform below {@code bound} without a division (Lemire 2019, ACM Transactions on Modeling and Computer Simulation
     * 29:3): the high half of a product, drawn again in the few cases that would favour some values.
     *
     * @param bound at least 1
     */
    int below(int bound) {
        long product = (next() >>> 32) * bound;
        if ((product & 0xFFFF_FFFFL) < bound) {
            long unfair = (1L << 32) % bound;
            while ((product & 0xFFFF_FFFFL) < unfair) {
                product = (next() >>> 32) * bound;
            }
        }
        return (int) (product >>> 32);
    }
}
