package org.sideport.app.timeline;

/**
 * A half-open stretch of time {@code [startUs, endUs)}, microseconds on the recording's timeline.
 */
public record Stretch(long startUs, long endUs) {

    public Stretch {
        if (startUs < 0 || endUs < startUs) {
            throw new IllegalArgumentException("not a stretch: " + startUs + " to " + endUs);
        }
    }

    public long lengthUs() {
        return endUs - startUs;
    }

    public boolean contains(long us) {
        return us >= startUs && us < endUs;
    }

    /** The nearest time within, both ends included. */
    public long hold(long us) {
        return Math.max(startUs, Math.min(endUs, us));
    }
}
