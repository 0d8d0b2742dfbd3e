package org.sideport.stats.segments;

/**
 * A labelled stretch of a recording, its end not included.
 *
 * @param label not empty
 * @param startUs microseconds from the start of the recording
 * @param endUs after {@code startUs}
 */
public record Segment(String label, long startUs, long endUs) {

    public Segment {
        if (label.isEmpty()) {
            throw new IllegalArgumentException("a segment without a label");
        }
        if (startUs >= endUs) {
            throw new IllegalArgumentException(label + " ends at " + endUs + " and starts at " + startUs + " us");
        }
    }

    public long lengthUs() {
        return endUs - startUs;
    }

    /** Common time with another segment, whatever the labels; 0 if there is none. */
    public long overlapUs(Segment other) {
        return Math.max(0, Math.min(endUs, other.endUs) - Math.max(startUs, other.startUs));
    }
}
