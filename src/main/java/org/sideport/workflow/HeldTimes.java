package org.sideport.workflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.timing.PublishedDurations;
import org.sideport.workflow.ProgressView.Held;

/** What the times of a phase or step can be held against: the unit's exemplars first, then what was published. */
final class HeldTimes {

    private final LatePublished published = new LatePublished();

    /** @param exemplars times of each exemplar by phase or step */
    List<Held> of(String procedure, String term, List<Map<String, @Nullable Long>> exemplars) {
        List<Held> held = new ArrayList<>();
        List<Long> times = new ArrayList<>();
        for (Map<String, @Nullable Long> one : exemplars) {
            Long us = one.get(term);
            if (us != null) {
                times.add(us);
            }
        }
        add(
                held,
                new ReferenceTimes.Own(ReferenceTimes.Kind.EXEMPLARS, times.size(), Map.of(term, times)),
                term,
                "",
                "",
                "");
        PublishedDurations all = published.get();
        for (PublishedDurations.Group group : all.groups()) {
            if (group.procedure().equals(procedure)) {
                add(
                        held,
                        new ReferenceTimes.Published(group, all.note()),
                        term,
                        group.title(),
                        group.source(),
                        group.caveat() + " " + all.note());
            }
        }
        return held;
    }

    private static void add(
            List<Held> held,
            ReferenceTimes.Reference reference,
            String term,
            String title,
            String source,
            String caveat) {
        ReferenceTimes.Usual usual = reference.usual(term);
        if (usual != null) {
            held.add(new Held(reference.id(), title, source, caveat, usual));
        }
    }
}
