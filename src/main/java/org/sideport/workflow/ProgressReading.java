package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Cut;
import org.sideport.model.Exemplar;
import org.sideport.model.Hidden;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.store.CaseReach;
import org.sideport.store.Stores;
import org.sideport.workflow.ProgressTimes.Tagged;
import org.sideport.workflow.ProgressView.Marks;
import org.sideport.workflow.ProgressView.OneCase;
import org.sideport.workflow.ProgressView.Said;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;
import org.sideport.workflow.consent.LeftOut;

/**
 * What of the store bears on a trainee's progress, as the caller may see it.
 *
 * @param cases of the trainee
 * @param hidden how many more there are
 * @param leftOut how many of the trainee's cases do not count
 * @param tagged those of them that somebody tagged phases of
 * @param taggings of each of them by everybody
 * @param peers of each other trainee: times by phase or step and case number, microseconds; nobody's code
 * @param exemplars of each of the unit's: times by phase or step
 */
record ProgressReading(
        List<OneCase> cases,
        int hidden,
        LeftOut leftOut,
        List<Tagged> tagged,
        Map<String, Collection<Tagging>> taggings,
        List<Map<String, Map<Integer, Long>>> peers,
        List<Map<String, @Nullable Long>> exemplars,
        @Nullable Marks marks,
        List<Said> comments,
        int fewestPeers) {

    static ProgressReading of(
            Stores stores, Vocabularies vocabularies, Procedure procedure, String trainee, @Nullable String rubric) {
        Comparator<SurgicalCase> order =
                Comparator.comparing(SurgicalCase::date).thenComparing(SurgicalCase::code);
        Set<String> seen = stores.cases().bare(Access.cases(stores.caller(), Permission.SEE_CASE)).stream()
                .filter(c -> !c.hides(Hidden.TRAINEE) && !c.hides(Hidden.DATE))
                .map(SurgicalCase::code)
                .collect(Collectors.toSet());
        CountedCases counted = CountedCases.forAssessment(stores, stores.cases().all());
        List<SurgicalCase> all = counted.cases().stream()
                .filter(c -> c.procedure().equals(procedure.id()) && !c.hides(Hidden.TRAINEE) && !c.hides(Hidden.DATE))
                .sorted(order)
                .toList();
        List<SurgicalCase> own =
                all.stream().filter(c -> c.trainee().equals(trainee)).toList();
        List<SurgicalCase> shown =
                own.stream().filter(c -> seen.contains(c.code())).toList();
        LeftOut leftOut = UnitComplications.ofTrainee(counted, procedure, trainee);
        if (shown.isEmpty() && !Access.directsOrIs(stores.caller(), trainee)) {
            Access.require(stores.caller(), Permission.SEE_COHORT);
        }
        Map<String, Map<String, Tagging>> tags = stores.taggings().byCase(CaseReach.ALL);
        Map<String, List<Cut>> cuts = stores.cuts().all();
        List<OneCase> cases = new ArrayList<>();
        List<Tagged> tagged = new ArrayList<>();
        Map<String, Collection<Tagging>> taggings = new HashMap<>();
        List<Said> comments = new ArrayList<>();
        for (SurgicalCase one : shown) {
            OneCase of = new OneCase(cases.size() + 1, one.code(), one.date(), CaseMix.of(one.descriptors()));
            cases.add(of);
            taggings.put(one.code(), tags.getOrDefault(one.code(), Map.of()).values());
            tagged(one, of.number(), tags, cuts).ifPresent(tagged::add);
            comments.addAll(said(stores, of, trainee));
        }
        comments.sort(Comparator.<Said>comparingInt(s -> -s.of().number()).thenComparing(Said::at));
        Map<String, OneCase> byCode = cases.stream().collect(Collectors.toMap(OneCase::code, c -> c));
        return new ProgressReading(
                cases,
                own.size() - shown.size(),
                leftOut,
                tagged,
                taggings,
                peers(procedure, all, trainee, tags, cuts),
                exemplars(stores, procedure),
                ProgressMarks.of(stores, vocabularies, procedure.id(), rubric, trainee, byCode),
                comments,
                stores.rules().fewestPeers(FollowProgress.USUAL_PEERS));
    }

    /** The tags that count of a case, if somebody tagged phases of it. */
    static Optional<Tagged> tagged(
            SurgicalCase one, int number, Map<String, Map<String, Tagging>> tags, Map<String, List<Cut>> cuts) {
        return WhichTagging.most(tags.getOrDefault(one.code(), Map.of()))
                .map(tagging -> new Tagged(one, number, tagging, cuts.getOrDefault(one.code(), List.of())));
    }

    private static List<Said> said(Stores stores, OneCase of, String trainee) {
        List<Said> all = new ArrayList<>();
        for (CommentThread thread : stores.comments().threads(of.code(), trainee)) {
            if (!thread.comment().author().equals(trainee) && thread.comment().tone() != CommentTone.PRAISE) {
                all.add(new Said(
                        of,
                        thread.comment().id(),
                        thread.comment().author(),
                        thread.comment().tone(),
                        thread.comment().text(),
                        thread.comment().from(),
                        thread.replies().stream().anyMatch(r -> r.author().equals(trainee))));
            }
        }
        return all;
    }

    /** Of each other trainee: times by phase or step and case number. */
    private static List<Map<String, Map<Integer, Long>>> peers(
            Procedure procedure,
            List<SurgicalCase> all,
            String trainee,
            Map<String, Map<String, Tagging>> tags,
            Map<String, List<Cut>> cuts) {
        Map<String, List<SurgicalCase>> byTrainee = new LinkedHashMap<>();
        all.stream()
                .filter(c -> !c.trainee().equals(trainee))
                .forEach(c -> byTrainee
                        .computeIfAbsent(c.trainee(), t -> new ArrayList<>())
                        .add(c));
        List<Map<String, Map<Integer, Long>>> peers = new ArrayList<>();
        for (List<SurgicalCase> theirs : byTrainee.values()) {
            Map<String, Map<Integer, Long>> times = new HashMap<>();
            for (int i = 0; i < theirs.size(); i++) {
                SurgicalCase one = theirs.get(i);
                int number = i + 1;
                tagged(one, number, tags, cuts)
                        .ifPresent(tagged -> ProgressTimes.of(procedure, tagged).forEach((term, us) -> {
                            if (us != null) {
                                times.computeIfAbsent(term, t -> new HashMap<>())
                                        .put(number, us);
                            }
                        }));
            }
            peers.add(times);
        }
        return peers;
    }

    /** Operations to be held against; what may be taught with, may be held against too. */
    static List<Exemplar> exemplarsThatCount(Stores stores, String procedure) {
        return stores.exemplars().of(procedure).stream()
                .filter(one -> {
                    List<SurgicalCase> of = List.of(stores.cases().get(one.caseCode()));
                    return CountedCases.forAssessment(stores, of).has(of.get(0).code())
                            || CountedCases.of(stores, of, ConsentPurpose.TEACHING)
                                    .has(of.get(0).code());
                })
                .toList();
    }

    static List<Map<String, @Nullable Long>> exemplars(Stores stores, Procedure procedure) {
        List<Map<String, @Nullable Long>> times = new ArrayList<>();
        for (Exemplar one : exemplarsThatCount(stores, procedure.id())) {
            List<Cut> cuts = stores.cuts().of(one.caseCode());
            stores.taggings()
                    .find(one.caseCode(), one.annotator())
                    .ifPresent(tagging -> times.add(ProgressTimes.of(
                            procedure, new Tagged(stores.cases().get(one.caseCode()), 0, tagging, cuts))));
        }
        return times;
    }
}
