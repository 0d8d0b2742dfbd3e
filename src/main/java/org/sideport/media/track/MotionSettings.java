package org.sideport.media.track;

/**
 * How movements are told from rest. All of these change the numbers: compare only what was measured alike.
 *
 * @param smoothingS whole width of the window over which a cubic is fitted to the places around each frame, seconds,
 *     positive
 * @param threshold speed above which the tip moves, units of length a second, positive
 * @param leastS shortest movement, seconds, not negative: shorter ones are taken for noise
 * @param leastRestS shortest rest between two movements, seconds, not negative: over shorter ones a movement goes on
 */
public record MotionSettings(double smoothingS, double threshold, double leastS, double leastRestS) {

    /** Seconds where nobody gives another number. */
    public static final double USUAL_SMOOTHING_S = 0.2;

    /** Limbus diameters a second: about 3 mm/s in an eye of usual size. */
    public static final double USUAL_THRESHOLD = 0.25;

    public static final double USUAL_LEAST_S = 0.12;
    public static final double USUAL_REST_S = 0.12;

    public MotionSettings {
        if (!(smoothingS > 0 && threshold > 0 && leastS >= 0 && leastRestS >= 0)) {
            throw new IllegalArgumentException("a window and a threshold above 0 are needed");
        }
    }

    /** @param threshold units of length a second */
    public static MotionSettings usual(double threshold) {
        return new MotionSettings(USUAL_SMOOTHING_S, threshold, USUAL_LEAST_S, USUAL_REST_S);
    }
}
