package org.sideport.workflow;

import java.time.Clock;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;
import org.sideport.model.MarkingRules;
import org.sideport.model.Rating;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.assign.Adjudication;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.CalibrationSet;
import org.sideport.workflow.assign.SelfAndAssessor;
import org.sideport.workflow.consent.ConsentDoubts;

/** Giving cases to assessors, settling what differs, practice, and the trainee's own marks beside the assessors'. */
final class GuardedAssignCalls {

    private static final String RUBRIC = Unit.RUBRIC.id();

    private GuardedAssignCalls() {}

    static void add(GuardedCalls all) {
        assignments(all);
        adjudication(all);
        calibration(all);
        besides(all);
    }

    private static Assignments assignments(GuardedCalls.Given g) {
        return new Assignments(g.on(), Clock.systemUTC());
    }

    private static Assignments.Terms terms(Hidden... hidden) {
        return new Assignments.Terms(Assignment.Purpose.FIRST, Set.of(hidden), null);
    }

    private static void assignments(GuardedCalls all) {
        all.general(Permission.ASSIGN, "Assignments.all()", g -> assignments(g).all());
        all.general(
                Permission.ASSIGN,
                "ConsentDoubts.ofGiven(List)",
                g -> new ConsentDoubts(g.on()).ofGiven(List.of(GuardedCalls.CASE)));
        all.general(
                Permission.ASSIGN,
                "Assignments.give(List,String,Terms)",
                g -> assignments(g).give(List.of(GuardedCalls.CASE), "A7", terms(Hidden.TRAINEE)));
        all.general(
                Permission.ASSIGN,
                "Assignments.draw(List,double,long,Terms,boolean)",
                g -> assignments(g).draw(List.of("A1", "A2"), 1, 7, terms(), false));
        all.general(Permission.ASSIGN, "Assignments.withdraw(String)", g -> {
            Assignment open =
                    g.anyones().<List<Assignment>>read(s -> s.assignments().ofCase(GuardedCalls.CASE)).stream()
                            .filter(a -> a.state() == Assignment.State.OPEN)
                            .findFirst()
                            .orElseThrow();
            return assignments(g).withdraw(open.id());
        });
        all.generalUnderCode(
                Permission.MARK, "Assignments.mine(String)", g -> assignments(g).mine(g.code()));
    }

    private static Adjudication adjudication(GuardedCalls.Given g) {
        return new Adjudication(g.on(), Clock.systemUTC());
    }

    private static void adjudication(GuardedCalls all) {
        all.general(
                Permission.ASSIGN, "Adjudication.rules()", g -> adjudication(g).rules());
        all.general(
                Permission.ASSIGN,
                "Adjudication.setRules(MarkingRules)",
                g -> GuardedCalls.done(() -> adjudication(g).setRules(new MarkingRules(false, 0.2, 5))));
        all.general(
                Permission.ADJUDICATE,
                "Adjudication.disagreements()",
                g -> adjudication(g).disagreements());
        all.ofCase(Permission.ADJUDICATE, "Adjudication.letStand(String,String,String,String,String)", g -> {
            markedByTwo(g);
            return adjudication(g).letStand(GuardedCalls.CASE, RUBRIC, "A7", "D1", "seen again");
        });
        all.ofCase(Permission.ADJUDICATE, "Adjudication.differing(String,String)", g -> {
            markedByTwo(g);
            return adjudication(g).differing(GuardedCalls.CASE, RUBRIC);
        });
        all.ofCase(Permission.ADJUDICATE, "Adjudication.agree(String,Rating,String,String)", g -> {
            markedByTwo(g);
            return adjudication(g).agree(GuardedCalls.CASE, agreed(), "D1", "seen again");
        });
    }

    /** By two who do not try here, so that the assignment of who does stays as it is. */
    private static void markedByTwo(GuardedCalls.Given g) {
        g.signed("A7", 0, 3);
        g.signed("A8", 6, 1);
    }

    private static Rating agreed() {
        return Unit.rating("panel", false);
    }

    private static void calibration(GuardedCalls all) {
        all.ofCase(
                Permission.ADJUDICATE,
                "CalibrationSet.setReference(String,Rating,String,String)",
                g -> new CalibrationSet(g.on(), Clock.systemUTC())
                        .setReference(GuardedCalls.CASE, agreed(), "D1", "for practice"));
        // a director sees all, an assessor what is the own
        all.anyOf(
                EnumSet.of(Permission.ADJUDICATE, Permission.MARK),
                "CalibrationSet.report(String)",
                g -> new CalibrationSet(g.on(), Clock.systemUTC()).report(RUBRIC));
    }

    private static void besides(GuardedCalls all) {
        all.ofCase(
                Permission.SEE_MARKS,
                "SelfAndAssessor.of(String,String)",
                g -> new SelfAndAssessor(g.on()).of(GuardedCalls.CASE, RUBRIC));
        all.ofPerson(
                Permission.SEE_MARKS,
                "SelfAndAssessor.overTime(String,String)",
                g -> new SelfAndAssessor(g.on()).overTime("T03", RUBRIC));
    }
}
