package org.sideport.media.export;

import java.math.BigInteger;
import java.util.List;
import org.sideport.media.TimeBase;

/**
 * The clock of a written file: fine enough to hold the times of all files that go into it without rounding, as far as
 * that is possible.
 *
 * @param timescale ticks a second
 */
record OutputClock(int timescale) {

    /** Beyond this a common multiple is no use, and microseconds are taken. */
    private static final long FINEST = 10_000_000;

    static OutputClock holding(List<TimeBase> bases) {
        BigInteger common = BigInteger.ONE;
        for (TimeBase base : bases) {
            BigInteger den = BigInteger.valueOf(base.den());
            common = common.divide(common.gcd(den)).multiply(den);
        }
        boolean fits = common.compareTo(BigInteger.valueOf(FINEST)) <= 0;
        return new OutputClock(fits ? common.intValueExact() : 1_000_000);
    }

    /** Ticks of another clock in ticks of this one, rounded half up where this one is coarser. */
    long ticks(long other, TimeBase base) {
        BigInteger numerator = BigInteger.valueOf(other)
                .multiply(BigInteger.valueOf(base.num()))
                .multiply(BigInteger.valueOf(timescale));
        BigInteger den = BigInteger.valueOf(base.den());
        BigInteger[] parts = numerator.shiftLeft(1).add(den).divideAndRemainder(den.shiftLeft(1));
        return parts[1].signum() < 0 ? parts[0].longValueExact() - 1 : parts[0].longValueExact();
    }

    long micros(long ticks) {
        return new TimeBase(1, timescale).toMicros(ticks);
    }
}
