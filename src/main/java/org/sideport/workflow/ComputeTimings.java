package org.sideport.workflow;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Cut;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.store.CaseReach;
import org.sideport.store.TaggingStore;
import org.sideport.store.Workspace;
import org.sideport.timing.CaseTimer;
import org.sideport.timing.CaseTiming;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;
import org.sideport.workflow.consent.LeftOut;

/** Phase timings of the cases in the store. */
public final class ComputeTimings {

    /** Which names are reported. */
    public enum Level {
        /** steps are added up under their phase */
        PHASE,
        /** as tagged */
        STEP
    }

    private final Workspace workspace;

    public ComputeTimings(Workspace workspace) {
        this.workspace = workspace;
    }

    /** A timing with the case that it is of. */
    public record TimedCase(SurgicalCase surgicalCase, Tagging tagging, CaseTiming timing) {

        /** Where an open last span ends, or {@code null}. */
        public @Nullable MediaTime recordingEnd() {
            Recording recording = surgicalCase.recording();
            return recording == null ? null : recording.duration();
        }
    }

    /** The reporting rule of a procedure at a level. */
    public static CaseTimer timer(Procedure procedure, Level level) {
        // every span is looked up, and a unit has very many
        Map<String, Optional<Procedure.Phase>> known = new ConcurrentHashMap<>();
        Function<String, Optional<Procedure.Phase>> phase =
                id -> known.computeIfAbsent(id, k -> procedure.find(k).map(Procedure.Term::phase));
        Function<String, String> rollUp = level == Level.STEP
                ? Function.identity()
                : id -> phase.apply(id).map(Procedure.Phase::id).orElse(id);
        Predicate<String> idle =
                id -> phase.apply(id).map(Procedure.Phase::idle).orElse(false);
        return new CaseTimer(rollUp, idle);
    }

    /** A tagging with what its times depend on. */
    private record Raw(SurgicalCase surgicalCase, String annotator, Tagging tagging, List<Cut> cuts) {}

    /**
     * @throws InputException if there is no such case, or this annotator has not tagged it
     */
    public CaseTiming ofCase(String caseCode, String annotator, Level level) {
        Raw raw = workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, caseCode);
            return new Raw(
                    stores.cases().get(caseCode),
                    annotator,
                    stores.taggings()
                            .find(caseCode, annotator)
                            .orElseThrow(() -> new InputException(
                                    annotator + " has not tagged case " + caseCode,
                                    null,
                                    "tag it, or name another annotator")),
                    stores.cuts().of(caseCode));
        });
        Procedure procedure =
                new Vocabularies(workspace).procedure(raw.surgicalCase().procedure());
        return timed(raw, timer(procedure, level)).timing();
    }

    /** The times of what an annotator at work has tagged so far. */
    public CaseTiming of(TagSession session, Level level) {
        SurgicalCase one = session.surgicalCase();
        List<Cut> cuts = workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, one.code());
            return stores.cuts().of(one.code());
        });
        return timed(new Raw(one, session.annotator(), session.tagging(), cuts), timer(session.procedure(), level))
                .timing();
    }

    /** @param leftOut cases that somebody tagged and that do not count */
    public record Counted(List<TimedCase> cases, LeftOut leftOut) {
        public Counted {
            cases = List.copyOf(cases);
        }
    }

    /** As {@link #all}, of those that count in figures over several cases. */
    public Counted counted(Level level) {
        List<TimedCase> all = all(level);
        CountedCases counted = workspace.read(stores -> CountedCases.forAssessment(
                stores, all.stream().map(TimedCase::surgicalCase).distinct().toList()));
        return new Counted(
                all.stream().filter(t -> counted.has(t.surgicalCase().code())).toList(), counted.leftOut(c -> true));
    }

    /** Every tagging in the store of cases that the caller may see, by case date, code and annotator. */
    public List<TimedCase> all(Level level) {
        Access.require(workspace, Permission.SEE_CASE);
        List<Raw> raw = workspace.read(stores -> {
            CaseReach reach = Access.cases(stores.caller(), Permission.SEE_CASE);
            Map<String, SurgicalCase> cases = new HashMap<>();
            stores.cases().all(reach).forEach(c -> cases.put(c.code(), c));
            Map<String, List<Cut>> cuts = stores.cuts().all();
            List<Raw> found = new ArrayList<>();
            for (TaggingStore.Key key : stores.taggings().all(reach)) {
                SurgicalCase one = cases.get(key.caseCode());
                if (one != null) {
                    stores.taggings()
                            .find(key.caseCode(), key.annotator())
                            .ifPresent(tagging -> found.add(
                                    new Raw(one, key.annotator(), tagging, cuts.getOrDefault(one.code(), List.of()))));
                }
            }
            return found;
        });
        Vocabularies vocabularies = new Vocabularies(workspace);
        Map<String, CaseTimer> timers = new HashMap<>();
        return raw.stream()
                .map(one -> timed(
                        one,
                        timers.computeIfAbsent(
                                one.surgicalCase().procedure(), id -> timer(vocabularies.procedure(id), level))))
                .toList();
    }

    private static TimedCase timed(Raw one, CaseTimer timer) {
        Recording recording = one.surgicalCase().recording();
        return new TimedCase(
                one.surgicalCase(),
                one.tagging(),
                timer.time(
                        one.surgicalCase().code(),
                        one.annotator(),
                        one.tagging(),
                        recording == null ? null : recording.duration(),
                        one.cuts()));
    }
}
