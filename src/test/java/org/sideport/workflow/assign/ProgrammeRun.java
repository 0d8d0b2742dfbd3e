package org.sideport.workflow.assign;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.sideport.demo.SimulatedProgramme;
import org.sideport.demo.SimulatedProgramme.Operation;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Caller;
import org.sideport.model.Hidden;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.MadeUpMarks;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.assign.Adjudication.Disagreement;
import org.sideport.workflow.assign.Adjudication.Stage;

/**
 * A {@link SimulatedProgramme} run in a real store, from giving the cases to settling what differs, each person under an
 * account of the own role.
 */
final class ProgrammeRun implements AutoCloseable {

    /** Rubric with one global grade. */
    static final String GRADE = "grade";

    private final SimulatedProgramme truth;
    private final Rubric rubric;
    private final Clock clock;
    private final Workspace workspace;
    private final Workspace director;
    private final Map<String, Operation> byCode = new HashMap<>();
    private final Map<String, List<String>> markers = new LinkedHashMap<>();
    private int thirds;

    ProgrammeRun(Path dir, Rubric rubric, long seed, Clock clock) {
        this.rubric = rubric;
        this.clock = clock;
        truth = new SimulatedProgramme(rubric, seed);
        workspace = FreshWorkspace.in(dir);
        new MadeUpMarks(workspace);
        director = workspace.as(new Caller.Person("P1", Set.of(Role.DIRECTOR)));
        truth.operations().forEach(o -> byCode.put(o.code(), o));
        truth.operations().forEach(o -> workspace.change(s -> s.cases().add(truth.surgicalCase(o))));
        Assignments assignments = new Assignments(director, clock);
        List<String> assessors = List.copyOf(SimulatedProgramme.SEVERITY.keySet());
        // weak trainees meet severe assessors more often, which raw means would take for severity
        for (int a = 0; a < 4; a++) {
            int which = a;
            List<String> firsts = truth.operations().stream()
                    .filter(o -> (o.trainee().charAt(2) + o.number() / 7) % 4 == which)
                    .map(Operation::code)
                    .toList();
            assignments.give(firsts, assessors.get(a), new Assignments.Terms(Purpose.FIRST, Hidden.ALL, null));
        }
        SecondDraw.Drawn drawn =
                assignments.draw(List.of(), 1, 7, new Assignments.Terms(Purpose.SECOND, Hidden.ALL, null), true);
        assertThat(drawn.isConnected()).isTrue();
        assertThat(drawn.pairs()).hasSize(120);
        assessors.forEach(this::markAll);
        settle(assignments, assessors);
    }

    SimulatedProgramme truth() {
        return truth;
    }

    Workspace workspace() {
        return workspace;
    }

    Workspace director() {
        return director;
    }

    Operation operation(String caseCode) {
        return byCode.get(caseCode);
    }

    /** Who marked each case, in the order of giving. */
    Map<String, List<String>> markers() {
        return markers;
    }

    int thirds() {
        return thirds;
    }

    /** True of four cases of each trainee, over the whole of the course. */
    boolean isGraded(String caseCode) {
        return Set.of(1, 7, 14, 20).contains(operation(caseCode).number());
    }

    /** All ratings with the rubric of the programme. */
    List<StoredRating> marks() {
        return director.<List<StoredRating>>read(stores -> stores.ratings().all()).stream()
                .filter(r -> r.rating().rubric().equals(rubric.id()))
                .toList();
    }

    @Override
    public void close() {
        workspace.close();
    }

    /** The assessor works through what is open, knowing labels only. */
    private void markAll(String assessor) {
        Workspace own = workspace.as(new Caller.Person(assessor, Set.of(Role.ASSESSOR)));
        for (Assignments.Work work : new Assignments(own, clock).mine(assessor)) {
            if (work.assignment().state() == Assignment.State.OPEN) {
                assertThat(work.code()).startsWith("M-");
                // what is seen in the operation: only this test knows which it is
                Assignment known = workspace
                        .read(stores -> stores.assignments().find(work.code()))
                        .orElseThrow();
                MarkCase marking = new MarkCase(own);
                Operation seen = byCode.get(known.caseCode());
                if (isGraded(seen.code())) {
                    marking.rate(work.code(), grade(seen, assessor));
                }
                marking.rate(work.code(), truth.rate(seen, assessor));
                marking.sign(work.code(), rubric.id(), assessor, false);
                if (isGraded(seen.code())) {
                    marking.sign(work.code(), GRADE, assessor, false);
                }
            }
        }
    }

    private Rating grade(Operation one, String assessor) {
        ItemScore overall = new ItemScore.Marked("overall", truth.grade(one, assessor), "");
        return new Rating(GRADE, "1.0.0", assessor, false, false, List.of(overall), "");
    }

    private void settle(Assignments assignments, List<String> assessors) {
        Adjudication adjudication = new Adjudication(director, clock);
        for (Disagreement one : ofMarks(adjudication)) {
            assertThat(one.stage()).isEqualTo(Stage.THIRD_WANTED);
            String third = assessors.stream()
                    .filter(a -> !one.assessors().containsKey(a))
                    .findFirst()
                    .orElseThrow();
            assignments.give(List.of(one.caseCode()), third, new Assignments.Terms(Purpose.THIRD, Hidden.ALL, null));
            thirds++;
        }
        assessors.forEach(this::markAll);
        for (Disagreement one : ofMarks(adjudication)) {
            assertThat(one.stage()).isEqualTo(Stage.TO_SETTLE);
            String middle = one.assessors().entrySet().stream()
                    .sorted(Map.Entry.comparingByValue())
                    .skip(1)
                    .findFirst()
                    .orElseThrow()
                    .getKey();
            adjudication.letStand(one.caseCode(), one.rubric(), middle, "P1", "the middle one of three");
        }
        for (StoredRating one : marks()) {
            markers.computeIfAbsent(one.caseCode(), c -> new ArrayList<>())
                    .add(one.rating().assessor());
        }
    }

    /** Global grades that differ are nobody's third marks. */
    List<Disagreement> ofMarks(Adjudication adjudication) {
        return adjudication.disagreements().stream()
                .filter(d -> d.rubric().equals(rubric.id()))
                .toList();
    }
}
