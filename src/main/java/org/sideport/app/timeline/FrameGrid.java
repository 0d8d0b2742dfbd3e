package org.sideport.app.timeline;

import java.util.Arrays;

/** Where each frame starts, so that the timeline can snap to frames and draw them. Immutable. */
public final class FrameGrid {

    private final long[] starts;

    /** @param starts ascending, microseconds; at least one */
    public FrameGrid(long[] starts) {
        if (starts.length == 0) {
            throw new IllegalArgumentException("a recording has frames");
        }
        this.starts = starts.clone();
    }

    public int size() {
        return starts.length;
    }

    public long start(int frame) {
        return starts[frame];
    }

    /** Number of the frame that is on the screen at a time: the last that has started, or the first. */
    public int at(long us) {
        int place = Arrays.binarySearch(starts, us);
        return Math.max(0, place >= 0 ? place : -place - 2);
    }

    /** The start of a frame that is nearest to a time. */
    public long nearest(long us) {
        int frame = at(us);
        if (frame + 1 < starts.length && starts[frame + 1] - us < us - starts[frame]) {
            return starts[frame + 1];
        }
        return starts[frame];
    }

    /** The start of the frame {@code by} frames from the one at a time, held within the recording. */
    public long step(long us, int by) {
        return starts[Math.max(0, Math.min(starts.length - 1, at(us) + by))];
    }
}
