package org.sideport.media;

import java.util.Arrays;
import java.util.List;

/**
 * The displayed frames of one file: when each comes on the screen, by its presentation time, never by a count divided by
 * a rate; which packet holds each; and from where it can be decoded. Immutable. Takes less than 24 bytes a frame.
 */
public final class FrameIndex {

    /**
     * What is doubtful about the times.
     *
     * @param damaged the demuxer met damage
     * @param guessed some frames had no time of their own
     * @param duplicates frames left out because another takes the screen at the same time
     * @param jumps how often the clock started anew
     * @param undecodable pictures at the start left out because they lean on others from before it
     * @param damagedPackets ordinals of packets seen to be damaged, ascending
     */
    record Doubts(
            boolean damaged,
            boolean guessed,
            int duplicates,
            int jumps,
            int undecodable,
            List<Integer> damagedPackets) {
        Doubts {
            damagedPackets = List.copyOf(damagedPackets);
        }
    }

    /** A key packet's four numbers of 8 bytes and three of 4, its header, and a reference to it. */
    private static final long KEY_BYTES = 64;

    private final TimeBase base;
    private final long[] pts;
    private final long endPts;
    private final int[] frameOf;
    private final List<KeyPacket> keys;
    private final Doubts doubts;

    /**
     * @param pts presentation times in ticks, ascending, without repeats, at least one
     * @param endPts when the last frame leaves the screen
     * @param frameOf for each video packet in file order the number of its frame, or -1
     * @param keys in file order
     */
    FrameIndex(TimeBase base, long[] pts, long endPts, int[] frameOf, List<KeyPacket> keys, Doubts doubts) {
        this.base = base;
        this.pts = pts;
        this.endPts = endPts;
        this.frameOf = frameOf;
        this.keys = List.copyOf(keys);
        this.doubts = doubts;
    }

    TimeBase base() {
        return base;
    }

    /** When the last frame leaves the screen, in ticks. */
    public long endPts() {
        return endPts;
    }

    int packets() {
        return frameOf.length;
    }

    /** The frame that a video packet holds, by its place among these in the file; -1 if it is never shown. */
    public int frameOf(int ordinal) {
        return ordinal >= 0 && ordinal < frameOf.length ? frameOf[ordinal] : -1;
    }

    /** The packet that holds a frame, found from its key packet on; -1 if it is not after it. */
    int packetOf(int frame) {
        int key = keyFor(frame);
        int from = key < 0 ? 0 : keys.get(key).ordinal();
        for (int ordinal = from; ordinal < frameOf.length; ordinal++) {
            if (frameOf[ordinal] == frame) {
                return ordinal;
            }
        }
        return -1;
    }

    List<KeyPacket> keys() {
        return keys;
    }

    /**
     * The last key packet that is shown no later than the frame: those after it in the file but shown before it may need
     * pictures from before it, so that it is no start for them. -1 if there is none.
     */
    public int keyFor(int frame) {
        int low = -1;
        int high = keys.size() - 1;
        while (low < high) {
            int middle = (low + high + 1) >> 1;
            if (keys.get(middle).frame() <= frame) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low;
    }

    /** The first frame of the group of pictures in which this one is. */
    int groupStart(int frame) {
        return frameOfKey(keyFor(frame));
    }

    /** The frame that a key packet, as {@link #keyFor} gives it, holds; 0 for -1. */
    public int frameOfKey(int key) {
        return key < 0 ? 0 : keys.get(key).frame();
    }

    Doubts doubts() {
        return doubts;
    }

    /** The demuxer met damage. */
    public boolean isDamaged() {
        return doubts.damaged();
    }

    /** The demuxer could not use some pictures at the start, which lean on others from before it. */
    public boolean startsMidway() {
        return doubts.undecodable() > 0;
    }

    /** The times are those that the packets bear: none was missing, and the clock never started anew. */
    public boolean hasOwnTimes() {
        return !doubts.guessed() && doubts.jumps() == 0;
    }

    /** How often the recorder's clock started anew. */
    public int clockJumps() {
        return doubts.jumps();
    }

    /** Frames left out because another has their time. */
    public int duplicates() {
        return doubts.duplicates();
    }

    /** The frame with exactly this presentation time, or a negative number; only where the file {@link #hasOwnTimes()}. */
    public int ofPts(long wanted) {
        return Arrays.binarySearch(pts, wanted);
    }

    /** Memory that this takes, bytes, about. */
    public long bytes() {
        return 8L * pts.length + 4L * frameOf.length + KEY_BYTES * keys.size();
    }

    public int size() {
        return pts.length;
    }

    public long pts(int frame) {
        return pts[frame];
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
}
