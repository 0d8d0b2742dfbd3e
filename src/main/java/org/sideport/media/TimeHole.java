package org.sideport.media;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A place inside one file where no frame comes for far longer than usual.
 *
 * @param segment position of the file in the recording, from 0
 * @param startUs when the next frame would have been due, microseconds on the recording's timeline
 * @param endUs when the next frame comes, microseconds on the recording's timeline
 */
public record TimeHole(int segment, long startUs, long endUs) {

    public TimeHole {
        if (segment < 0 || startUs < 0 || endUs <= startUs) {
            throw new IllegalArgumentException(
                    "no hole in the times: segment " + segment + ", " + startUs + " to " + endUs + " us");
        }
    }

    /** A frame that lasts this many times the usual, and at least so long, leaves a hole. */
    private static final int FACTOR = 4;

    private static final long LEAST_US = 250_000;

    /** The holes of a file that starts at {@code startUs} on the recording's timeline. */
    static List<TimeHole> in(FrameIndex index, int segment, long startUs) {
        List<TimeHole> holes = new ArrayList<>();
        int n = index.size() - 1;
        if (n < 2) {
            return holes;
        }
        long[] lengths = new long[n];
        for (int f = 0; f < n; f++) {
            lengths[f] = index.startUs(f + 1) - index.startUs(f);
        }
        long[] sorted = lengths.clone();
        Arrays.sort(sorted);
        long usual = sorted[n / 2];
        for (int f = 0; f < n; f++) {
            if (lengths[f] > FACTOR * usual && lengths[f] >= LEAST_US) {
                holes.add(new TimeHole(segment, startUs + index.startUs(f) + usual, startUs + index.startUs(f + 1)));
            }
        }
        return holes;
    }
}
