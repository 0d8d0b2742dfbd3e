package org.sideport.media.trace;

import java.util.List;

/**
 * Where an eye is likely to be in the middle of the picture: red is about as saturated there as in most of the recording.
 * A recording without red tells nothing.
 */
final class EyeStretches {

    private static final double SMOOTH_SECONDS = 1.5;
    /** The level of a picture with an eye is taken at this share of the sorted values. */
    private static final double LEVEL_AT = 0.75;

    private static final double SHARE_OF_LEVEL = 0.4;
    private static final double LEAST_LEVEL = 0.08;

    private final double level;
    private final List<Stretch> stretches;

    EyeStretches(Traces traces, Moments moments, FindingRules rules) {
        float[] red = traces.of(TraceKind.RED_SATURATION);
        double[] values = new double[red.length];
        int n = 0;
        for (int i = 0; i < red.length; i++) {
            if (moments.usable()[i]) {
                values[n++] = red[i];
            }
        }
        level = Numbers.quantile(java.util.Arrays.copyOf(values, n), LEVEL_AT);
        double[] smooth = Numbers.runningMedian(red, moments.count(SMOOTH_SECONDS));
        boolean[] eye = new boolean[red.length];
        for (int i = 0; i < eye.length; i++) {
            eye[i] = moments.usable()[i] && smooth[i] >= SHARE_OF_LEVEL * level;
        }
        int few = moments.count(rules.eyeSeconds());
        stretches = level < LEAST_LEVEL ? List.of() : Stretch.of(eye, few, few);
    }

    /** Red saturation of a picture with an eye. */
    double level() {
        return level;
    }

    /** In the order of time; none where the recording has no red to go by. */
    List<Stretch> stretches() {
        return stretches;
    }
}
