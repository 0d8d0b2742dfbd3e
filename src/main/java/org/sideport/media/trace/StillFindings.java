package org.sideport.media.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Stretches that show no operation whatever happens: black, without signal, frozen. */
final class StillFindings {

    /** Mean difference that an encoder leaves in a picture that stands. */
    private static final double FROZEN = 0.12;
    /** What a key frame may change once in a while in a picture that stands. */
    private static final double KEY_FRAME = 2;

    private StillFindings() {}

    static List<Finding> of(Traces traces, Moments moments, FindingRules rules) {
        List<Finding> found = new ArrayList<>();
        int least = moments.count(rules.stillSeconds());
        float[] brightness = traces.of(TraceKind.BRIGHTNESS);
        float[] contrast = traces.of(TraceKind.CONTRAST);
        for (Stretch s : Stretch.of(moments.black(), least, 0)) {
            found.add(finding(
                    FindingKind.BLACK,
                    s,
                    moments,
                    0.95,
                    String.format(
                            Locale.ROOT,
                            "Black for %.1f s: mean brightness %.0f of 235, where video black is 16.",
                            moments.seconds(s.length()),
                            s.mean(brightness))));
        }
        float[] blue = traces.of(TraceKind.BLUE);
        for (Stretch s : Stretch.of(moments.empty(), least, 0)) {
            found.add(finding(
                    FindingKind.NO_SIGNAL,
                    s,
                    moments,
                    0.9,
                    String.format(
                            Locale.ROOT,
                            "No scene for %.1f s: brightness %.0f spreads by %.1f only, blue difference %.0f (grey is 128).",
                            moments.seconds(s.length()),
                            s.mean(brightness),
                            s.mean(contrast),
                            s.mean(blue))));
        }
        addFrozen(traces, moments, rules, found);
        return found;
    }

    private static void addFrozen(Traces traces, Moments moments, FindingRules rules, List<Finding> found) {
        float[] difference = traces.of(TraceKind.DIFFERENCE);
        for (Stretch whole : frozen(traces, moments, rules)) {
            found.add(finding(
                    FindingKind.FROZEN,
                    whole,
                    moments,
                    0.85,
                    String.format(
                            Locale.ROOT,
                            "Frozen for %.1f s: frames advance and differ by %.2f grey levels on average.",
                            moments.seconds(whole.length()),
                            new Stretch(whole.from() + 1, whole.to()).mean(difference))));
        }
    }

    /** Stretches with the first picture of each, from which the next does not differ. */
    static List<Stretch> frozen(Traces traces, Moments moments, FindingRules rules) {
        float[] difference = traces.of(TraceKind.DIFFERENCE);
        boolean[] frozen = new boolean[traces.size()];
        for (int i = 1; i < frozen.length; i++) {
            frozen[i] = moments.usable()[i] && !moments.held()[i] && stands(difference, i);
        }
        return Stretch.of(frozen, moments.count(rules.frozenSeconds()), 0).stream()
                .map(s -> new Stretch(s.from() - 1, s.to()))
                .toList();
    }

    /** No difference; or a small one, with none on either side: a key frame of a picture that stands. */
    private static boolean stands(float[] difference, int i) {
        if (difference[i] <= FROZEN) {
            return true;
        }
        return difference[i] <= KEY_FRAME
                && i > 1
                && i + 1 < difference.length
                && difference[i - 1] <= FROZEN
                && difference[i + 1] <= FROZEN;
    }

    private static Finding finding(
            FindingKind kind, Stretch stretch, Moments moments, double confidence, String evidence) {
        return new Finding(kind, moments.time(stretch.from()), moments.time(stretch.to()), evidence, confidence);
    }
}
