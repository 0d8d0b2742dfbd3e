package org.sideport.model;

import java.util.List;

/**
 * The files of one operation in order, on one virtual timeline: each segment starts where the one before ends.
 *
 * @param covered areas that whoever this was read for may not see, such as a name that a machine wrote into the picture:
 *     those of a case that is marked blind, else none
 */
public record Recording(List<Segment> segments, List<MaskArea> covered) {

    public Recording(List<Segment> segments) {
        this(segments, List.of());
    }

    public Recording {
        segments = List.copyOf(segments);
        covered = List.copyOf(covered);
        if (segments.isEmpty()) {
            throw new IllegalArgumentException("a recording needs at least one segment");
        }
    }

    public MediaTime duration() {
        return MediaTime.ofMicros(
                segments.stream().mapToLong(Segment::durationUs).sum());
    }

    /** Where segment {@code index} starts on the recording's timeline. */
    public MediaTime startOf(int index) {
        return MediaTime.ofMicros(
                segments.stream().limit(index).mapToLong(Segment::durationUs).sum());
    }

    /** The segment on the screen at {@code time}; the last one from its start on, without end. */
    public int segmentAt(MediaTime time) {
        long end = 0;
        for (int i = 0; i < segments.size(); i++) {
            end += segments.get(i).durationUs();
            if (time.micros() < end) {
                return i;
            }
        }
        return segments.size() - 1;
    }
}
