package org.sideport.timing;

/**
 * One stretch of a phase or step on a recording's own timeline.
 *
 * @param label id of the phase or step
 * @param startUs microseconds, 0 or more
 * @param endUs microseconds, after {@code startUs}
 */
public record Episode(String label, long startUs, long endUs) {

    public Episode {
        if (startUs < 0 || endUs <= startUs) {
            throw new IllegalArgumentException(label + " from " + startUs + " to " + endUs + " us has no length");
        }
    }

    public long lengthUs() {
        return endUs - startUs;
    }
}
