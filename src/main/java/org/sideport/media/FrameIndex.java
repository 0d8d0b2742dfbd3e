package org.sideport.media;

import java.util.Arrays;

/**
 * The displayed frames of one file: when each comes on the screen, by its presentation time, never by a count divided by
 * a rate. Immutable.
 */
public final class FrameIndex {

    private final TimeBase base;
    private final long[] pts;
    private final long endPts;
    private final boolean damaged;
    private final boolean guessed;
    private final int duplicates;

    /**
     * @param pts presentation times in ticks, ascending, without repeats, at least one
     * @param endPts when the last frame leaves the screen
     */
    FrameIndex(TimeBase base, long[] pts, long endPts, boolean damaged, boolean guessed, int duplicates) {
        this.base = base;
        this.pts = pts;
        this.endPts = endPts;
        this.damaged = damaged;
        this.guessed = guessed;
        this.duplicates = duplicates;
    }

    public int size() {
        return pts.length;
    }

    public long pts(int frame) {
        return pts[frame];
    }

    /** When the last frame leaves the screen, in ticks. */
    public long endPts() {
        return endPts;
    }

    /** The clock of the presentation times. */
    public TimeBase timeBase() {
        return base;
    }

    /** Microseconds from the first displayed frame to the start of this one; for {@code size()} the file's length. */
    public long startUs(int frame) {
        return base.toMicros((frame == pts.length ? endPts : pts[frame]) - pts[0]);
    }

    public long durationUs() {
        return startUs(pts.length);
    }

    /** First frame's time in the file's own clock, microseconds. */
    public long firstUs() {
        return base.toMicros(pts[0]);
    }

    /** The frame on the screen at this time; the last one from its start on; the first before its start. */
    public int at(long us) {
        int low = 0;
        int high = pts.length - 1;
        while (low < high) {
            int middle = (low + high + 1) >>> 1;
            if (startUs(middle) <= us) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low;
    }

    /** The frame with exactly this presentation time, or a negative number. */
    public int ofPts(long wanted) {
        return Arrays.binarySearch(pts, wanted);
    }

    /** True if frame durations differ by more than two ticks, or by more than two milliseconds, whichever is more. */
    public boolean isVariableRate() {
        long shortest = Long.MAX_VALUE;
        long longest = 0;
        for (int i = 1; i < pts.length; i++) {
            long length = pts[i] - pts[i - 1];
            shortest = Math.min(shortest, length);
            longest = Math.max(longest, length);
        }
        return pts.length > 2 && longest - shortest > 2 && base.toMicros(longest) - base.toMicros(shortest) > 2_000;
    }

    public boolean isDamaged() {
        return damaged;
    }

    public boolean isGuessed() {
        return guessed;
    }

    public int duplicates() {
        return duplicates;
    }
}
