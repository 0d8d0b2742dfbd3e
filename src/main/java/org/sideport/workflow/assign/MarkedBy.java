package org.sideport.workflow.assign;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Assignment.State;
import org.sideport.model.RatingState;
import org.sideport.model.SurgicalCase;
import org.sideport.store.CohortStore;
import org.sideport.store.Stores;
import org.sideport.workflow.consent.CountedCases;
import org.sideport.workflow.consent.LeftOut;

/**
 * Which cases are marked, or to be marked, by whom. Those that may not be marked for want of consent are none of them.
 *
 * @param assessors among whom a second can be drawn
 * @param once cases with one assessor
 * @param links between those who mark the same case
 * @param load open assignments of each
 * @param cases number of cases that anybody marks
 * @param twice number of those that two or more mark
 * @param leftOut cases that somebody marks, without the consent that marking needs
 */
record MarkedBy(
        List<String> assessors,
        List<SecondDraw.Candidate> once,
        List<SecondDraw.Link> links,
        Map<String, Integer> load,
        int cases,
        int twice,
        LeftOut leftOut) {

    /** Descriptors in which a unit may note who trained in a case, by code. */
    private static final List<String> TRAINERS = List.of("trainer", "supervisor", "assistant");

    /** @param among empty for all that are known */
    static MarkedBy of(Stores stores, List<String> among) {
        Map<String, Set<String>> markers = new LinkedHashMap<>();
        Map<String, Integer> load = new HashMap<>();
        CohortStore.Practice practice = stores.cohort().practice();
        for (Assignment one : stores.assignments().all()) {
            if (one.state() == State.OPEN) {
                load.merge(one.assessor(), 1, Integer::sum);
            }
            if (one.state() != State.WITHDRAWN && one.purpose() != Purpose.PRACTICE) {
                markers.computeIfAbsent(one.caseCode(), code -> new TreeSet<>()).add(one.assessor());
            }
        }
        stores.ratings().all().stream()
                .filter(r -> !r.rating().self()
                        && r.state() != RatingState.SUPERSEDED
                        && !practice.isMark(r.caseCode(), r.rating().assessor()))
                .forEach(r -> markers.computeIfAbsent(r.caseCode(), code -> new TreeSet<>())
                        .add(r.rating().assessor()));
        markers.keySet().removeIf(practice::isReference);
        List<SecondDraw.Candidate> once = new ArrayList<>();
        List<SecondDraw.Link> links = new ArrayList<>();
        Set<String> known = new TreeSet<>(stores.assignments().assessors());
        boolean listed = stores.people().any();
        int cases = 0;
        int twice = 0;
        CountedCases counted = CountedCases.forAssessment(stores, stores.cases().all());
        for (SurgicalCase one : counted.cases()) {
            List<String> by = List.copyOf(markers.getOrDefault(one.code(), Set.of()));
            if (by.isEmpty() || !one.hidden().isEmpty()) {
                continue;
            }
            cases++;
            if (!listed) {
                known.addAll(by);
            }
            if (by.size() == 1) {
                once.add(new SecondDraw.Candidate(one.code(), by.get(0), barred(stores, one)));
            } else {
                twice++;
                by.forEach(a -> links.add(new SecondDraw.Link(by.get(0), a)));
            }
        }
        return new MarkedBy(
                among.isEmpty() ? List.copyOf(known) : among,
                once,
                links,
                load,
                cases,
                twice,
                counted.leftOut(c -> markers.containsKey(c.code())));
    }

    private static Set<String> barred(Stores stores, SurgicalCase one) {
        Set<String> barred = new HashSet<>();
        barred.add(one.trainee());
        TRAINERS.forEach(id -> {
            String trainer = one.descriptors().get(id);
            if (trainer != null) {
                barred.add(trainer);
            }
        });
        String addedBy = stores.cases().addedBy(one.code());
        if (!addedBy.isEmpty()) {
            barred.add(addedBy);
        }
        return barred;
    }
}
