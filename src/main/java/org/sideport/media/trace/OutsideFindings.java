package org.sideport.media.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What lies outside the operation: before it, after it, or between two of them. */
final class OutsideFindings {

    private OutsideFindings() {}

    static List<Finding> of(Traces traces, Moments moments, FindingRules rules) {
        EyeStretches eye = new EyeStretches(traces, moments, rules);
        List<Stretch> stretches = eye.stretches();
        List<Finding> found = new ArrayList<>();
        if (stretches.isEmpty()) {
            return found;
        }
        Stretch first = stretches.get(0);
        Stretch last = stretches.get(stretches.size() - 1);
        int least = moments.count(rules.outsideSeconds());
        if (first.from() >= least) {
            found.add(finding(FindingKind.LEAD_IN, new Stretch(0, first.from()), traces, moments, eye));
        }
        if (traces.size() - last.to() >= least) {
            found.add(finding(FindingKind.TAIL, new Stretch(last.to(), traces.size()), traces, moments, eye));
        }
        addChangeovers(stretches, traces, moments, rules, eye, found);
        return found;
    }

    private static void addChangeovers(
            List<Stretch> stretches,
            Traces traces,
            Moments moments,
            FindingRules rules,
            EyeStretches eye,
            List<Finding> found) {
        int changeover = moments.count(rules.changeoverSeconds());
        int operation = moments.count(rules.operationSeconds());
        int[] eyeBefore = new int[stretches.size() + 1];
        for (int i = 0; i < stretches.size(); i++) {
            eyeBefore[i + 1] = eyeBefore[i] + stretches.get(i).length();
        }
        int all = eyeBefore[stretches.size()];
        for (int i = 1; i < stretches.size(); i++) {
            Stretch gap =
                    new Stretch(stretches.get(i - 1).to(), stretches.get(i).from());
            if (gap.length() >= changeover && eyeBefore[i] >= operation && all - eyeBefore[i] >= operation) {
                double times = (double) gap.length() / changeover;
                found.add(new Finding(
                        FindingKind.TWO_OPERATIONS,
                        moments.time(gap.from()),
                        moments.time(gap.to()),
                        String.format(
                                Locale.ROOT,
                                "Two operations in one recording are suspected: no eye for %.0f s (red saturation %.2f"
                                        + " against %.2f), with an eye for %.0f s before and %.0f s after.",
                                moments.seconds(gap.length()),
                                gap.mean(traces.of(TraceKind.RED_SATURATION)),
                                eye.level(),
                                moments.seconds(eyeBefore[i]),
                                moments.seconds(all - eyeBefore[i])),
                        Math.min(0.9, 0.4 + 0.1 * times)));
            }
        }
    }

    private static Finding finding(
            FindingKind kind, Stretch stretch, Traces traces, Moments moments, EyeStretches eye) {
        double red = stretch.mean(traces.of(TraceKind.RED_SATURATION));
        return new Finding(
                kind,
                moments.time(stretch.from()),
                moments.time(stretch.to()),
                String.format(
                        Locale.ROOT,
                        "No eye for %.1f s %s: red saturation %.2f in the middle, %.2f where an eye is; perhaps outside"
                                + " the operation.",
                        moments.seconds(stretch.length()),
                        kind == FindingKind.LEAD_IN ? "before the first eye" : "after the last eye",
                        red,
                        eye.level()),
                Math.max(0.3, Math.min(0.9, 1 - red / eye.level())));
    }
}
