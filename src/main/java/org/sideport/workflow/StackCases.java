package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Cut;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.store.TaggingStore;
import org.sideport.store.Workspace;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.Episode;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Puts a trainee's cases of one procedure above one another, by date. */
public final class StackCases {

    private final Workspace workspace;

    public StackCases(Workspace workspace) {
        this.workspace = workspace;
    }

    /** One case. */
    public record Bar(SurgicalCase surgicalCase, String annotator, List<Episode> episodes, CaseTiming timing) {

        public Bar {
            episodes = List.copyOf(episodes);
        }

        /** Where the phase is first begun, microseconds; {@code null} if the case does not have it. */
        public @Nullable Long startOf(String phase) {
            return episodes.stream()
                    .filter(e -> e.label().equals(phase))
                    .map(Episode::startUs)
                    .findFirst()
                    .orElse(null);
        }
    }

    /**
     * @param bars by date, then code; of the cases that the caller may see
     * @param untagged how many more cases the trainee has that nobody has tagged
     */
    public record Stack(Procedure procedure, String trainee, List<Bar> bars, int untagged) {

        public Stack {
            bars = List.copyOf(bars);
        }

        /** The phases or steps that occur, in the procedure's order. */
        public List<Procedure.Term> terms() {
            return procedure.terms().stream()
                    .filter(t -> bars.stream().anyMatch(b -> b.startOf(t.id()) != null))
                    .toList();
        }
    }

    private record Raw(SurgicalCase surgicalCase, String annotator, Tagging tagging, List<Cut> cuts) {}

    /**
     * @param preferred whose tags are taken where there are some; {@code null} for whoever tagged most
     * @throws org.sideport.model.InputException if there is no such procedure
     */
    public Stack of(String trainee, String procedureId, @Nullable String preferred, Level level) {
        Access.require(workspace, Permission.SEE_CASE);
        Procedure procedure = new Vocabularies(workspace).procedure(procedureId);
        List<Raw> raw = new ArrayList<>();
        int cases = workspace.read(stores -> {
            Map<String, Boolean> tagged = new HashMap<>();
            stores.taggings().withPhases().stream()
                    .map(TaggingStore.Key::caseCode)
                    .forEach(code -> tagged.put(code, true));
            List<SurgicalCase> mine = stores.cases().all(Access.cases(stores.caller(), Permission.SEE_CASE)).stream()
                    .filter(c -> c.trainee().equals(trainee) && c.procedure().equals(procedureId))
                    .toList();
            for (SurgicalCase one : mine) {
                if (tagged.containsKey(one.code())) {
                    String who = WhichTagging.of(stores, one.code(), null, preferred);
                    raw.add(new Raw(
                            one,
                            who,
                            stores.taggings().find(one.code(), who).orElse(Tagging.EMPTY),
                            stores.cuts().of(one.code())));
                }
            }
            return mine.size();
        });
        CommonNames names =
                new CommonNames(procedure, level, raw.stream().map(Raw::tagging).toList());
        List<Bar> bars = new ArrayList<>();
        for (Raw one : raw) {
            Recording recording = one.surgicalCase().recording();
            MediaTime end = recording == null ? null : recording.duration();
            bars.add(new Bar(
                    one.surgicalCase(),
                    one.annotator(),
                    names.episodes(one.tagging(), end),
                    names.timer().time(one.surgicalCase().code(), one.annotator(), one.tagging(), end, one.cuts())));
        }
        bars.sort(Comparator.comparing((Bar b) -> b.surgicalCase().date())
                .thenComparing(b -> b.surgicalCase().code()));
        return new Stack(procedure, trainee, bars, cases - bars.size());
    }
}
