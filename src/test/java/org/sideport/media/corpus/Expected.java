package org.sideport.media.corpus;

import java.util.Arrays;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.MediaWarning.Code;

/**
 * What a corpus file holds, by the way it was made.
 *
 * @param startsUs when each frame comes on the screen, microseconds from the first
 * @param durationUs until the last leaves it
 * @param stamps number in each picture; {@link #ANY} where damage makes it unpredictable
 * @param warnings the exact set, but for those about names
 * @param error {@code null} unless the file is refused
 */
@SuppressWarnings("ArrayRecordComponent")
public record Expected(long[] startsUs, long durationUs, int[] stamps, Set<Code> warnings, Reason error) {

    /** A picture, whichever. */
    public static final int ANY = -2;

    /** {@code count} frames of a steady rate, numbered from 0. */
    static Expected steady(int count, double rate, Code... warnings) {
        return at(
                LongStream.range(0, count).map(n -> Math.round(n * 1e6 / rate)).toArray(),
                Math.round(count * 1e6 / rate),
                IntStream.range(0, count).toArray(),
                warnings);
    }

    static Expected at(long[] startsUs, long durationUs, int[] stamps, Code... warnings) {
        return new Expected(startsUs, durationUs, stamps, Set.of(warnings), null);
    }

    static Expected refused(Reason reason) {
        return new Expected(new long[0], 0, new int[0], Set.of(), reason);
    }

    Expected stampsFrom(int first) {
        return withStamps(IntStream.range(first, first + stamps.length).toArray());
    }

    Expected withStamps(int... numbers) {
        return new Expected(startsUs, durationUs, numbers, warnings, error);
    }

    /** With pictures {@code from} to {@code to}, exclusive, lost. */
    Expected damaged(int from, int to) {
        int[] numbers = stamps.clone();
        Arrays.fill(numbers, from, to, ANY);
        return withStamps(numbers);
    }
}
