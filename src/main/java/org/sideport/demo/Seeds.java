package org.sideport.demo;

import java.util.Random;

/** Independent random sequences for each thing that is invented, so that adding one does not change the others. */
final class Seeds {

    private Seeds() {}

    /** Neighbouring seeds of {@link Random} start alike, so the seed is mixed first (SplitMix64's finaliser). */
    static Random random(long seed, String what) {
        long z = seed;
        for (int i = 0; i < what.length(); i++) {
            z = mix(z + what.charAt(i));
        }
        return new Random(mix(z));
    }

    private static long mix(long value) {
        long z = value + 0x9E3779B97F4A7C15L;
        z = (z ^ z >>> 30) * 0xBF58476D1CE4E5B9L;
        z = (z ^ z >>> 27) * 0x94D049BB133111EBL;
        return z ^ z >>> 31;
    }
}
