package org.sideport.media.trace;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** What the traces tell about the recording itself. */
public final class Findings {

    private Findings() {}

    /** As {@link #of(Traces, FindingRules)} with the usual limits. */
    public static List<Finding> of(Traces traces) {
        return of(traces, FindingRules.usual());
    }

    /** All findings in the order of time. */
    public static List<Finding> of(Traces traces, FindingRules rules) {
        Moments moments = new Moments(traces);
        List<Finding> found = new ArrayList<>();
        found.addAll(StillFindings.of(traces, moments, rules));
        found.addAll(FocusFindings.of(traces, moments, rules));
        found.addAll(CutFindings.of(traces, moments, rules));
        found.addAll(OutsideFindings.of(traces, moments, rules));
        found.sort(Comparator.comparing(Finding::start).thenComparing(Finding::kind));
        return List.copyOf(found);
    }
}
