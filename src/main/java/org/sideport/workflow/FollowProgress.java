package org.sideport.workflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Caller;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.ProgressView.Marks;
import org.sideport.workflow.ProgressView.TermTimes;
import org.sideport.workflow.ProgressView.Timed;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.assign.SelfAndAssessor;
import org.sideport.workflow.assign.SelfAndAssessor.OverTime;

/**
 * Follows one trainee in one procedure. Trainees see their own, assessors what they were given, directors everybody; of
 * others nobody's code is told, and nothing at all where they are too few.
 */
public final class FollowProgress {

    /** As many latest cases are compared with those before; common practice, no source. */
    public static final int USUAL_RECENT = FollowCohort.USUAL_LAST;

    /** Cases on either side of a comparison, at least; common practice, no source. */
    public static final int FEWEST_EACH = 5;

    /** Others, at least, of whom something is told, unless the unit sets it; common practice, no source. */
    public static final int USUAL_PEERS = 5;

    /** A unit cannot set fewer: of two others each could work out the other. */
    public static final int LEAST_PEERS = 3;

    private final Workspace workspace;
    private final Vocabularies vocabularies;
    private final HeldTimes held = new HeldTimes();

    public FollowProgress(Workspace workspace) {
        this.workspace = workspace;
        this.vocabularies = new Vocabularies(workspace);
    }

    /** Somebody's cases of a procedure. */
    public record Subject(String trainee, String procedure, int cases) {}

    /**
     * What is asked for.
     *
     * @param rubric id; {@code null} for the one with most marks
     * @param recent how many of the latest cases are compared with those before, at least 1
     * @param logComplete whether whoever asks states that every operation of the trainee is here, in turn
     */
    public record Question(
            String trainee, String procedure, @Nullable String rubric, int recent, boolean logComplete) {}

    /** Whom the caller may follow, by code; those who operated at least once. */
    public List<Subject> subjects() {
        Access.require(workspace, Permission.SEE_CASE);
        return workspace.read(stores -> {
            Map<String, Integer> counts = new TreeMap<>();
            for (SurgicalCase one : stores.cases().all(Access.cases(stores.caller(), Permission.SEE_CASE))) {
                if (!one.hides(Hidden.TRAINEE) && !one.hides(Hidden.DATE)) {
                    counts.merge(one.trainee() + " " + one.procedure(), 1, Integer::sum);
                }
            }
            return counts.entrySet().stream()
                    .map(e -> {
                        int space = e.getKey().lastIndexOf(' ');
                        return new Subject(
                                e.getKey().substring(0, space), e.getKey().substring(space + 1), e.getValue());
                    })
                    .toList();
        });
    }

    /** From how many others on it is told what they took. */
    public int fewestPeers() {
        Access.require(workspace, Permission.SEE_CASE);
        return workspace.read(stores -> stores.rules().fewestPeers(USUAL_PEERS));
    }

    /**
     * @throws InputException if that would tell of single persons
     */
    public void setFewestPeers(int fewest) {
        Access.require(workspace, Permission.SEE_COHORT);
        if (fewest < LEAST_PEERS) {
            throw new InputException(
                    "with " + fewest + " others, single persons could be worked out",
                    null,
                    "write " + LEAST_PEERS + " or more");
        }
        workspace.change(stores -> {
            int before = stores.rules().fewestPeers(USUAL_PEERS);
            stores.rules().saveFewestPeers(fewest);
            stores.audit().add("progress.rules", "unit", "fewest_peers " + before, "fewest_peers " + fewest);
        });
    }

    /**
     * @throws InputException if there is no such procedure or rubric, or the caller may see none of the trainee's cases
     */
    public ProgressView show(Question asked) {
        Access.require(workspace, Permission.SEE_CASE);
        String trainee = Codes.require("a trainee", asked.trainee());
        if (asked.recent() < 1) {
            throw new InputException("the latest " + asked.recent() + " cases", null, "write 1 or more");
        }
        Procedure procedure = vocabularies.procedure(asked.procedure());
        ProgressReading found =
                workspace.read(stores -> ProgressReading.of(stores, vocabularies, procedure, trainee, asked.rubric()));
        boolean isSelection = found.hidden() > 0;
        return new ProgressView(
                trainee,
                procedure,
                found.cases(),
                found.hidden(),
                found.leftOut(),
                found.cases().size() - found.tagged().size(),
                asked.recent(),
                found.fewestPeers(),
                times(procedure, found, asked.recent()),
                found.marks(),
                gap(trainee, found.marks()),
                found.comments(),
                ProgressWatch.of(
                        procedure,
                        found.cases(),
                        found.taggings(),
                        asked.logComplete(),
                        isSelection,
                        found.leftOut().cases()));
    }

    private List<TermTimes> times(Procedure procedure, ProgressReading found, int recent) {
        List<Map<String, @Nullable Long>> byCase = found.tagged().stream()
                .map(one -> ProgressTimes.of(procedure, one))
                .toList();
        List<TermTimes> all = new ArrayList<>();
        if (!byCase.isEmpty()) {
            all.add(term(procedure.id(), ProgressView.WHOLE, "", false, found, byCase, recent));
        }
        for (Procedure.Term term : procedure.terms()) {
            if (!term.phase().idle() && byCase.stream().anyMatch(t -> t.containsKey(term.id()))) {
                all.add(term(procedure.id(), term.id(), term.name(), term.isStep(), found, byCase, recent));
            }
        }
        return all;
    }

    private TermTimes term(
            String procedure,
            String id,
            String name,
            boolean step,
            ProgressReading found,
            List<Map<String, @Nullable Long>> byCase,
            int recent) {
        List<Timed> own = new ArrayList<>();
        int unsure = 0;
        for (int i = 0; i < byCase.size(); i++) {
            Long us = byCase.get(i).get(id);
            if (us != null && us > 0) {
                own.add(new Timed(found.cases().get(found.tagged().get(i).number() - 1), us));
            } else if (byCase.get(i).containsKey(id)) {
                unsure++;
            }
        }
        List<Map<Integer, Long>> peers =
                found.peers().stream().map(t -> t.getOrDefault(id, Map.of())).toList();
        return new TermTimes(
                id,
                name,
                step,
                own,
                unsure,
                ProgressTimes.curve(own, found.hidden() > 0),
                ProgressTimes.change(own, recent),
                ProgressTimes.peers(peers, found.fewestPeers()),
                held.of(procedure, id, found.exemplars()));
    }

    /** As the trainee and the director may see it; others do not. */
    private @Nullable OverTime gap(String trainee, @Nullable Marks marks) {
        boolean may = (workspace.caller() instanceof Caller.Person person
                        && person.code().equals(trainee))
                || Access.may(workspace.caller(), Permission.SEE_COHORT);
        if (marks == null || !may) {
            return null;
        }
        OverTime gap =
                new SelfAndAssessor(workspace).overTime(trainee, marks.rubric().id());
        return gap.cases().isEmpty() ? null : gap;
    }
}
