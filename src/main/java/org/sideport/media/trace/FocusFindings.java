package org.sideport.media.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Stretches far less sharp than the rest of the recording. The squared gradient is divided by the variance of the
 * brightness first: a light filter or a drape of little contrast lowers both alike, loss of focus the gradient far more.
 */
final class FocusFindings {

    /** A median over less than this says nothing. */
    private static final double LEAST_SECONDS = 5;

    private FocusFindings() {}

    static List<Finding> of(Traces traces, Moments moments, FindingRules rules) {
        boolean[] usable = moments.usable();
        int known = 0;
        for (boolean one : usable) {
            known += one ? 1 : 0;
        }
        float[] sharpness = relative(traces, usable);
        double median = Numbers.median(sharpness, usable);
        List<Finding> found = new ArrayList<>();
        if (moments.seconds(known) < LEAST_SECONDS || median <= 0) {
            return found;
        }
        boolean[] soft = new boolean[traces.size()];
        for (int i = 0; i < soft.length; i++) {
            soft[i] = usable[i] && sharpness[i] < rules.focusShare() * median;
        }
        for (Stretch s : Stretch.of(soft, moments.count(rules.focusSeconds()), 1)) {
            double share = s.mean(sharpness) / median;
            found.add(new Finding(
                    FindingKind.OUT_OF_FOCUS,
                    moments.time(s.from()),
                    moments.time(s.to()),
                    String.format(
                            Locale.ROOT,
                            "Out of focus for %.1f s: sharpness for its contrast is %.0f %% of the recording's median.",
                            moments.seconds(s.length()),
                            100 * share),
                    Math.max(0.3, Math.min(0.95, 1 - share))));
        }
        return found;
    }

    private static float[] relative(Traces traces, boolean[] usable) {
        float[] relative = traces.of(TraceKind.SHARPNESS).clone();
        float[] contrast = traces.of(TraceKind.CONTRAST);
        for (int i = 0; i < relative.length; i++) {
            // usable pictures have contrast
            relative[i] = usable[i] ? relative[i] / (contrast[i] * contrast[i]) : 0;
        }
        return relative;
    }
}
