package org.sideport.workflow;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.sideport.workflow.access.Permission;

/** Standards, decisions, the cohort. */
final class GuardedStandardCalls {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 10);
    private static final CutBasis GIVEN = new CutBasis.Given(0.6);

    private GuardedStandardCalls() {}

    static void add(GuardedCalls all) {
        rounds(all);
        standards(all);
        decisions(all);
    }

    private static StandardRounds rounds(GuardedCalls.Given g) {
        return new StandardRounds(g.on(), Clock.systemUTC());
    }

    /** Rubric "five" with an open round in which everybody was asked. */
    private static String open(GuardedCalls.Given g) {
        StandardRounds any = new StandardRounds(g.anyones(), Clock.systemUTC());
        return any.all().stream()
                .map(StandardRounds.View::round)
                .filter(round -> round.closedAt() == null)
                .map(round -> round.id())
                .findFirst()
                .orElseGet(() -> {
                    new MadeUpMarks(g.anyones());
                    return any.open("five", GuardedCalls.everybody(), "")
                            .round()
                            .id();
                });
    }

    private static Map<String, Double> points() {
        return Map.of("i1", 3.0, "i2", 3.0, "i3", 3.0, "i4", 3.0, "i5", 3.0);
    }

    private static void rounds(GuardedCalls all) {
        all.general(
                Permission.JUDGE_STANDARD,
                "StandardRounds.all()",
                g -> rounds(g).all());
        all.general(
                Permission.JUDGE_STANDARD,
                "StandardRounds.show(String)",
                g -> rounds(g).show(open(g)));
        all.general(Permission.SET_STANDARD, "StandardRounds.open(String,List,String)", g -> {
            new MadeUpMarks(g.anyones());
            return rounds(g).open("five", List.of("A1", "A2"), "");
        });
        all.general(Permission.SET_STANDARD, "StandardRounds.close(String,List,String)", g -> {
            String round = open(g);
            StandardRounds any = new StandardRounds(g.anyones(), Clock.systemUTC());
            GuardedCalls.everybody().forEach(judge -> any.judge(round, judge, points()));
            return rounds(g).close(round, List.of(), "");
        });
        all.generalUnderCode(
                Permission.JUDGE_STANDARD,
                "StandardRounds.sheet(String,String)",
                g -> rounds(g).sheet(open(g), g.code()));
        all.generalUnderCode(
                Permission.JUDGE_STANDARD,
                "StandardRounds.judge(String,String,Map)",
                g -> rounds(g).judge(open(g), g.code(), points()));
    }

    private static Standards standards(GuardedCalls.Given g) {
        return new Standards(g.on(), Clock.systemUTC());
    }

    private static CutProposal proposal(GuardedCalls.Given g) {
        return new Standards(g.anyones(), Clock.systemUTC())
                .propose(Unit.RUBRIC.id(), null, GIVEN)
                .orElseThrow();
    }

    private static void standards(GuardedCalls all) {
        all.general(
                Permission.JUDGE_STANDARD, "Standards.all()", g -> standards(g).all());
        all.general(Permission.JUDGE_STANDARD, "Standards.get(String)", g -> {
            String id = new Standards(g.anyones(), Clock.systemUTC())
                    .agree(proposal(g), List.of("D1"), DAY, "")
                    .id();
            return standards(g).get(id);
        });
        all.general(
                Permission.SET_STANDARD,
                "Standards.propose(String,String,CutBasis)",
                g -> standards(g).propose(Unit.RUBRIC.id(), null, GIVEN));
        all.general(
                Permission.SET_STANDARD,
                "Standards.agree(CutProposal,List,LocalDate,String)",
                g -> standards(g).agree(proposal(g), List.of("D1"), DAY, ""));
    }

    private static Decisions decisions(GuardedCalls.Given g) {
        return new Decisions(g.on(), Clock.systemUTC());
    }

    private static void decisions(GuardedCalls all) {
        Decisions.Question question = Decisions.Question.of("T03", Unit.RUBRIC.id());
        all.general(
                Permission.SEE_COHORT, "Decisions.trainees()", g -> decisions(g).trainees());
        all.general(
                Permission.SEE_COHORT, "Decisions.of(String)", g -> decisions(g).of("T03"));
        all.general(
                Permission.SEE_COHORT,
                "Decisions.show(Question)",
                g -> decisions(g).show(question));
        all.general(
                Permission.RECORD_DECISION,
                "Decisions.record(Question,String,List,LocalDate,String)",
                g -> decisions(g).record(question, "goes on as before", List.of("D1"), DAY, null));
        all.general(
                Permission.SEE_COHORT,
                "FollowCohort.show(Question)",
                g -> new FollowCohort(g.on(), Clock.systemUTC()).show(FollowCohort.Question.of(Unit.RUBRIC.id())));
        all.general(
                Permission.SEE_COHORT,
                "FollowCohort.rubric(String,String)",
                g -> new FollowCohort(g.on(), Clock.systemUTC()).rubric(Unit.RUBRIC.id(), null));
        all.general(
                Permission.SEE_COHORT,
                "FollowCohort.marks(String,String,String,String)",
                g -> new FollowCohort(g.on(), Clock.systemUTC()).marks(Unit.RUBRIC.id(), null, "T03", null));
        all.general(
                Permission.SEE_COHORT,
                "OutstandingWork.of(String,String)",
                g -> new OutstandingWork(g.on(), Clock.systemUTC()).of(Unit.RUBRIC.id(), null));
        all.general(
                Permission.SEE_COHORT,
                "PlanMarking.show(String,String,double,double)",
                g -> new PlanMarking(g.on()).show(Unit.RUBRIC.id(), null, 0.8, 15));
        all.general(
                Permission.SEE_COHORT,
                "UnitComplications.show(Question)",
                g -> new UnitComplications(g.on())
                        .show(new UnitComplications.Question("phaco", java.util.Set.of(), 5)));
        all.general(
                Permission.SEE_COHORT, "CohortTimes.show(String,int)", g -> new CohortTimes(g.on()).show("phaco", 6));
        all.general(
                Permission.SEE_COHORT,
                "FollowCohort.severity(String,String,double,int)",
                g -> new FollowCohort(g.on(), Clock.systemUTC()).severity(Unit.RUBRIC.id(), null, 0.95, 0));
        all.general(Permission.SEE_CASE, "FollowProgress.subjects()", g -> new FollowProgress(g.on()).subjects());
        all.general(Permission.SEE_CASE, "FollowProgress.fewestPeers()", g -> new FollowProgress(g.on()).fewestPeers());
        all.general(
                Permission.SEE_COHORT,
                "FollowProgress.setFewestPeers(int)",
                g -> GuardedCalls.done(() -> new FollowProgress(g.on()).setFewestPeers(6)));
        all.ofCase(
                Permission.SEE_CASE,
                "FollowProgress.show(Question)",
                g -> new FollowProgress(g.on()).show(new FollowProgress.Question("T03", "phaco", null, 6, false)));
        all.ofCase(
                Permission.SEE_CASE,
                "ReferenceTimes.of(String,String)",
                g -> new ReferenceTimes(g.on()).of(GuardedCalls.CASE, null));
    }
}
