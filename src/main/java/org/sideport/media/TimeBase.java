package org.sideport.media;

import java.math.BigInteger;

/** A stream's clock: one tick lasts {@code num / den} seconds. */
public record TimeBase(int num, int den) {

    private static final BigInteger MILLION = BigInteger.valueOf(1_000_000);

    /** Ticks to microseconds, exact, rounded half up. */
    public long toMicros(long ticks) {
        if (Math.abs(ticks) < Long.MAX_VALUE / 2_000_000 / Math.max(1, num)) {
            return Math.floorDiv(2 * ticks * num * 1_000_000 + den, 2L * den);
        }
        BigInteger numerator = BigInteger.valueOf(ticks)
                .multiply(BigInteger.valueOf(num))
                .multiply(MILLION)
                .shiftLeft(1)
                .add(BigInteger.valueOf(den));
        BigInteger[] parts =
                numerator.divideAndRemainder(BigInteger.valueOf(den).shiftLeft(1));
        return parts[1].signum() < 0 ? parts[0].longValueExact() - 1 : parts[0].longValueExact();
    }

    /** Seconds to ticks, rounded down. */
    public long ofSeconds(long seconds) {
        return seconds * den / num;
    }
}
