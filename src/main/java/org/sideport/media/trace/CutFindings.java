package org.sideport.media.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.sideport.media.TimeHole;
import org.sideport.model.MediaTime;

/** Jumps of the scene, and holes in the times, inside files. */
final class CutFindings {

    private static final double NEIGHBOURHOOD_SECONDS = 2;
    /** How far a jump stands out from the moments around it. */
    private static final double ABOVE_NEIGHBOURS = 0.3;

    private CutFindings() {}

    static List<Finding> of(Traces traces, Moments moments, FindingRules rules) {
        List<Finding> found = new ArrayList<>();
        float[] scene = traces.of(TraceKind.SCENE_CHANGE);
        for (TimeHole hole : traces.holes()) {
            int after = moments.index(hole.endUs());
            boolean changed = after < traces.size() && scene[after] >= rules.cutShare();
            found.add(new Finding(
                    FindingKind.TIME_HOLE,
                    MediaTime.ofMicros(hole.startUs()),
                    MediaTime.ofMicros(hole.endUs()),
                    String.format(
                            Locale.ROOT,
                            "No frame for %.2f s inside file %d; the scene after it is %s.",
                            (hole.endUs() - hole.startUs()) / 1e6,
                            hole.segment() + 1,
                            changed ? "another" : "the same, so a picture may have been held"),
                    changed ? 0.95 : 0.6));
        }
        int around = moments.count(NEIGHBOURHOOD_SECONDS);
        for (int i = 1; i < scene.length; i++) {
            if (isJump(traces, moments, rules, scene, i, around)) {
                found.add(new Finding(
                        FindingKind.JUMP_CUT,
                        moments.time(i - 1),
                        moments.time(i),
                        String.format(
                                Locale.ROOT,
                                "The scene jumps inside file %d while its times run on: %.0f %% of the blocks with"
                                        + " texture are new, %.0f %% around it.",
                                traces.segmentAt(traces.timeUs(i)) + 1,
                                100 * scene[i],
                                100 * usualAround(scene, i, around)),
                        Math.min(0.95, scene[i])));
            }
        }
        return found;
    }

    private static boolean isJump(
            Traces traces, Moments moments, FindingRules rules, float[] scene, int i, int around) {
        boolean sameFile = traces.segmentAt(traces.timeUs(i)) == traces.segmentAt(traces.timeUs(i - 1));
        // black, no signal and holes are findings of their own, and coming out of them is no jump
        boolean scenes = moments.usable()[i] && moments.usable()[i - 1] && !moments.held()[i - 1];
        boolean peak = scene[i] >= scene[i - 1] && (i + 1 == scene.length || scene[i] > scene[i + 1]);
        return sameFile
                && scenes
                && peak
                && scene[i] >= rules.cutShare()
                && scene[i] - usualAround(scene, i, around) >= ABOVE_NEIGHBOURS;
    }

    private static double usualAround(float[] scene, int i, int around) {
        int from = Math.max(0, i - around);
        int to = Math.min(scene.length, i + around + 1);
        double[] others = new double[to - from - 1];
        int n = 0;
        for (int k = from; k < to; k++) {
            if (k != i) {
                others[n++] = scene[k];
            }
        }
        return Numbers.median(others);
    }
}
