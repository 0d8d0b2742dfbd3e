package org.sideport.workflow.assign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.AgreedMark;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Caller;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MarkingRules;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CaseOverview;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.assign.Adjudication.Disagreement;
import org.sideport.workflow.assign.Adjudication.Stage;

/** Marks that are made apart and seen in turn: self first, double marking, adjudication, practice. */
class MarksInTurnTest {

    private static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();
    private static final String FIRST_ITEM = RUBRIC.items().get(0).id();
    private static final Clock CLOCK = Clock.fixed(Instant.parse("2099-05-01T08:00:00Z"), ZoneOffset.UTC);

    @TempDir
    Path dir;

    private Workspace workspace;
    private Workspace director;
    private Workspace trainee;
    private Workspace first;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(dir);
        director = person("P1", Role.DIRECTOR);
        trainee = person("T03", Role.TRAINEE);
        first = person("A1", Role.ASSESSOR);
        addCase("C-1", 1);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private Workspace person(String code, Role role) {
        return workspace.as(new Caller.Person(code, Set.of(role)));
    }

    private void addCase(String code, int day) {
        workspace.change(stores ->
                stores.cases().add(new SurgicalCase(code, "T03", LocalDate.of(2026, 3, day), "phaco", Map.of(), null)));
    }

    /** {@code points} for all items but the first {@code others}, which get {@code otherPoints}. */
    private static Rating rating(String assessor, boolean self, int points, int others, int otherPoints) {
        List<ItemScore> scores = new ArrayList<>();
        for (int i = 0; i < RUBRIC.items().size(); i++) {
            scores.add(new ItemScore.Marked(RUBRIC.items().get(i).id(), i < others ? otherPoints : points, ""));
        }
        return new Rating(RUBRIC.id(), RUBRIC.version(), assessor, self, false, scores, "");
    }

    private void sign(String code, Rating rating) {
        MarkCase marking = new MarkCase(workspace);
        marking.rate(code, rating);
        marking.sign(code, rating.rubric(), rating.assessor(), rating.self());
    }

    private void sign(String code, String assessor, boolean self, int points) {
        sign(code, rating(assessor, self, points, 0, 0));
    }

    private static List<String> seenBy(Workspace who) {
        return new CaseList(who)
                .one("C-1").ratings().stream()
                        .map(CaseOverview.RatingOverview::assessor)
                        .sorted()
                        .toList();
    }

    @Test
    void aTraineeSeesTheAssessorsMarksAfterSigningTheOwn() {
        sign("C-1", "A1", false, 3);
        assertThat(seenBy(trainee)).isEmpty();
        assertThat(new CaseList(trainee).all().get(0).ratings()).isEmpty();
        new MarkCase(workspace).rate("C-1", rating("T03", true, 4, 0, 0));
        // a draft is not enough
        assertThat(seenBy(trainee)).containsExactly("T03");
        assertThat(new SelfAndAssessor(trainee).of("C-1", RUBRIC.id()).state())
                .isEqualTo(SelfAndAssessor.State.NO_SELF);
        new MarkCase(workspace).sign("C-1", RUBRIC.id(), "T03", true);
        assertThat(seenBy(trainee)).containsExactly("A1", "T03");
        assertThat(new SelfAndAssessor(trainee).of("C-1", RUBRIC.id()).state()).isEqualTo(SelfAndAssessor.State.BOTH);
    }

    @Test
    void anAssessorSeesTheTraineesMarksAfterSigningTheOwn() {
        sign("C-1", "T03", true, 4);
        new Assignments(director, CLOCK)
                .give(List.of("C-1"), "A1", new Assignments.Terms(Purpose.FIRST, Set.of(), null));
        assertThat(seenBy(first)).isEmpty();
        new MarkCase(workspace).rate("C-1", rating("A1", false, 3, 0, 0));
        assertThat(seenBy(first)).containsExactly("A1");
        new MarkCase(workspace).sign("C-1", RUBRIC.id(), "A1", false);
        assertThat(seenBy(first)).containsExactly("A1", "T03");
    }

    @Test
    void aUnitMayDoWithoutTheTraineesOwnMarks() {
        sign("C-1", "A1", false, 3);
        Adjudication rules = new Adjudication(director, CLOCK);
        rules.setRules(new MarkingRules(false, 0.15, 2));
        assertThat(seenBy(trainee)).containsExactly("A1");
        // but nobody's drafts
        new MarkCase(workspace).rate("C-1", rating("A2", false, 3, 0, 0));
        assertThat(seenBy(trainee)).containsExactly("A1");
        assertThatThrownBy(() -> new Adjudication(trainee, CLOCK).setRules(MarkingRules.USUAL))
                .isInstanceOf(InputException.class);
    }

    @Test
    void aSecondAssessorSeesNoMarksBeforeTheOwnAreSignedAlsoWhereNothingIsHidden() {
        sign("C-1", "A1", false, 3);
        new Assignments(director, CLOCK)
                .give(List.of("C-1"), "A2", new Assignments.Terms(Purpose.SECOND, Set.of(), null));
        Workspace second = person("A2", Role.ASSESSOR);
        assertThat(seenBy(second)).isEmpty();
        sign("C-1", "A2", false, 2);
        assertThat(seenBy(second)).containsExactly("A1", "A2");
    }

    @Test
    void theGapIsTheTraineesMarkLessTheAssessorsItemByItem() {
        // trainee 4 throughout but one item left out, assessor 3 but 1 on the first two
        Rating self = rating("T03", true, 4, 0, 0);
        List<ItemScore> scores = new ArrayList<>(self.scores());
        Rubric.Item last = RUBRIC.items().stream()
                .filter(i -> i.notApplicable().contains(NotApplicable.NOT_PERFORMED))
                .reduce((a, b) -> b)
                .orElseThrow();
        scores.replaceAll(s ->
                s.item().equals(last.id()) ? new ItemScore.Excused(last.id(), NotApplicable.NOT_PERFORMED, "") : s);
        sign("C-1", self.withScores(scores));
        sign("C-1", rating("A1", false, 3, 2, 1));
        SelfAndAssessor.Sides sides = new SelfAndAssessor(trainee).of("C-1", RUBRIC.id());
        assertThat(sides.besides()).singleElement().satisfies(beside -> {
            MarkGap gap = beside.gap();
            int n = RUBRIC.items().size() - 1;
            assertThat(gap.shared()).isEqualTo(n);
            // by hand: (4n − (3n − 4)) / 4n with all weights 1 and a top level of 4
            assertThat(RUBRIC.items()).allMatch(i -> i.weight() == 1 && RUBRIC.maximumOf(i) == 4);
            assertThat(gap.shareGap()).isCloseTo((n + 4) / (4.0 * n), within(1e-12));
            assertThat(gap.far()).isEqualTo(2);
            assertThat(gap.withinOne()).isEqualTo(n - 2);
            assertThat(gap.exact()).isZero();
            assertThat(gap.items().get(0).gap()).isEqualTo(3);
            assertThat(gap.items())
                    .filteredOn(i -> i.item().equals(last.id()))
                    .allSatisfy(i -> assertThat(i.gap()).isNull());
        });
    }

    /**
     * Bland & Altman 1986 on gaps of −1, 0, 1, 2 and 3 quarters of the maximum: mean 0.25, SD √(2.5)/4, limits of the mean by
     * t with 4 degrees of freedom, 2.776 (Student's table).
     */
    @Test
    void selfJudgementOverTimeHasItsLimitsAndSaysThatItRestsOnFewCases() {
        int[] self = {1, 2, 3, 4, 4};
        int[] assessor = {2, 2, 2, 2, 1};
        for (int i = 0; i < self.length; i++) {
            String code = "D-" + i;
            addCase(code, 10 + i);
            sign(code, "T03", true, self[i]);
            sign(code, "A1", false, assessor[i]);
        }
        SelfAndAssessor.OverTime over = new SelfAndAssessor(trainee).overTime("T03", RUBRIC.id());
        assertThat(over.cases()).extracting(SelfAndAssessor.CaseGap::gap).containsExactly(-.25, 0.0, .25, .5, .75);
        assertThat(over.agreement().bias().value()).isCloseTo(.25, within(1e-12));
        assertThat(over.agreement().sd()).isCloseTo(Math.sqrt(2.5) / 4, within(1e-12));
        assertThat(over.agreement().bias().limits().upper())
                .isCloseTo(.25 + 2.776 * Math.sqrt(2.5) / 4 / Math.sqrt(5), within(2e-4));
        assertThat(over.warnings()).anyMatch(w -> w.contains("only 5 cases"));
        SelfAndAssessor.OverTime none = new SelfAndAssessor(director).overTime("T09", RUBRIC.id());
        assertThat(none.agreement()).isNull();
        assertThat(none.why()).contains("not enough cases");
        assertThatThrownBy(() -> new SelfAndAssessor(person("T04", Role.TRAINEE)).overTime("T03", RUBRIC.id()))
                .isInstanceOf(InputException.class);
    }

    @Test
    void marksWithinTheLimitsAskForNobody() {
        sign("C-1", "A1", false, 3);
        // two items of some twenty one level lower
        sign("C-1", rating("A2", false, 3, 2, 2));
        assertThat(new Adjudication(director, CLOCK).disagreements()).isEmpty();
    }

    @Test
    void aDifferenceAtTheLimitAsksForAThirdAndIsSettledWithTheMarksUntouched() {
        Adjudication adjudication = new Adjudication(director, CLOCK);
        sign("C-1", "A1", false, 4);
        sign("C-1", "A2", false, 3);
        // one level of four throughout is 0.25 of the maximum
        adjudication.setRules(new MarkingRules(true, 0.2501, 1));
        assertThat(adjudication.disagreements()).isEmpty();
        adjudication.setRules(new MarkingRules(true, 0.25, 1));
        assertThat(adjudication.disagreements()).singleElement().satisfies(d -> {
            assertThat(d.stage()).isEqualTo(Stage.THIRD_WANTED);
            assertThat(d.shareGap()).isCloseTo(.25, within(1e-12));
            assertThat(d.far()).isZero();
            assertThat(d.assessors()).containsEntry("A1", 1.0).containsEntry("A2", .75);
        });
        new Assignments(director, CLOCK)
                .give(List.of("C-1"), "A3", new Assignments.Terms(Purpose.THIRD, Hidden.ALL, null));
        assertThat(stage(adjudication)).isEqualTo(Stage.THIRD_OPEN);
        String label = new Assignments(person("A3", Role.ASSESSOR), CLOCK)
                .mine("A3")
                .get(0)
                .code();
        sign(label, "A3", false, 3);
        assertThat(stage(adjudication)).isEqualTo(Stage.TO_SETTLE);
        List<StoredRating> before = ratings();
        assertThatThrownBy(() -> adjudication.letStand("C-1", RUBRIC.id(), "A2", "", " "))
                .hasMessageContaining("reason");
        assertThatThrownBy(() -> new Adjudication(first, CLOCK).letStand("C-1", RUBRIC.id(), "A2", "A1", "mine"))
                .isInstanceOf(InputException.class);
        Adjudication.Settled settled =
                adjudication.letStand("C-1", RUBRIC.id(), "A2", "P1 A3", "the third agrees with the second");
        assertThat(settled.standing()).isEqualTo("A2");
        assertThat(settled.score().share()).isCloseTo(.75, within(1e-12));
        assertThat(stage(adjudication)).isEqualTo(Stage.SETTLED);
        assertThat(ratings()).isEqualTo(before);
        assertThat(workspace.read(stores -> stores.audit().all()).stream()
                        .filter(e -> e.deed().equals("marks.adjudicate")))
                .singleElement()
                .satisfies(e -> {
                    assertThat(e.who()).isEqualTo("P1");
                    assertThat(e.subject()).isEqualTo("C-1");
                    assertThat(e.before()).contains("A1", "A2", "A3");
                    assertThat(e.after()).contains("A2");
                });
    }

    private static Stage stage(Adjudication adjudication) {
        return adjudication.disagreements().stream()
                .map(Disagreement::stage)
                .findFirst()
                .orElseThrow();
    }

    private List<StoredRating> ratings() {
        return workspace.read(stores -> stores.ratings().ofCase("C-1"));
    }

    @Test
    void itemsTwoLevelsApartAreEnoughAndMarksMayBeAgreedAnew() {
        Adjudication adjudication = new Adjudication(director, CLOCK);
        adjudication.setRules(new MarkingRules(true, .15, 2));
        sign("C-1", "A1", false, 3);
        sign("C-1", rating("A2", false, 3, 2, 1));
        // two items of twenty two levels lower: 4 points of 80 are 0.05, below the share, but two items are far apart
        assertThat(adjudication.disagreements()).singleElement().satisfies(d -> {
            assertThat(d.far()).isEqualTo(2);
            assertThat(d.shareGap()).isLessThan(.15);
        });
        Rating agreed = rating("panel", false, 3, 2, 2);
        assertThatThrownBy(() -> adjudication.agree("C-1", agreed.withScores(List.of()), "P1", "talked it over"))
                .hasMessageContaining("not complete");
        Adjudication.Settled settled = adjudication.agree("C-1", agreed, "A1, A2", "talked it over");
        assertThat(settled.standing()).isNull();
        AgreedMark kept = workspace
                .read(stores -> stores.agreedMarks().all(AgreedMark.Purpose.ADJUDICATION))
                .get(0);
        assertThat(kept).isEqualTo(settled.mark());
        assertThat(kept.agreedBy()).isEqualTo("A1, A2");
        assertThat(kept.scores()).hasSameSizeAs(RUBRIC.items());
        assertThat(kept.asRating().score(FIRST_ITEM))
                .hasValueSatisfying(s -> assertThat(s.pointsOrNull()).isEqualTo(2));
    }

    @Test
    void practiceIsComparedWithTheReferenceItemByItem() {
        CalibrationSet set = new CalibrationSet(director, CLOCK);
        int[] reference = {3, 2, 4, 3};
        int[] severe = {2, 2, 3, 2};
        for (int i = 0; i < reference.length; i++) {
            String code = "R-" + i;
            addCase(code, 10 + i);
            assertThatThrownBy(() -> new Assignments(director, CLOCK)
                            .give(List.of(code), "A2", new Assignments.Terms(Purpose.PRACTICE, Hidden.ALL, null)))
                    .hasMessageContaining("no reference marks");
            set.setReference(code, rating("panel", false, reference[i], 0, 0), "P1, A1", "meeting in March");
            new Assignments(director, CLOCK)
                    .give(List.of(code), "A2", new Assignments.Terms(Purpose.PRACTICE, Hidden.ALL, null));
            String label = workspace
                    .read(stores -> stores.assignments().ofCase(code))
                    .get(0)
                    .label();
            sign(label, "A2", false, severe[i]);
        }
        CalibrationSet.Report report = set.report(RUBRIC.id());
        assertThat(report.references()).isEqualTo(4);
        assertThat(report.assessors()).singleElement().satisfies(a -> {
            int n = RUBRIC.items().size();
            assertThat(a.assessor()).isEqualTo("A2");
            assertThat(a.cases()).isEqualTo(4);
            // differences of 1, 0, 1, 1 quarters of the maximum: mean .1875; SD .125, t(3) = 3.182 (Student's table)
            assertThat(a.severity().value()).isCloseTo(.1875, within(1e-12));
            assertThat(a.severity().limits().upper()).isCloseTo(.1875 + 3.182 * .125 / 2, within(2e-4));
            assertThat(a.items()).isEqualTo(4 * n);
            assertThat(a.exact()).isEqualTo(n);
            assertThat(a.withinOne()).isEqualTo(4 * n);
            assertThat(a.byItem())
                    .hasSize(n)
                    .allSatisfy(i -> assertThat(i.meanLevels()).isEqualTo(.75));
        });
        // cases with a reference are for practice, and no disagreement
        assertThat(new Adjudication(director, CLOCK).disagreements()).isEmpty();
        assertThat(new CalibrationSet(first, CLOCK).report(RUBRIC.id()).assessors())
                .isEmpty();
    }

    @Test
    void aCaseIsGivenOnceToWhoMayMarkIt() {
        Assignments assignments = new Assignments(director, CLOCK);
        Assignments.Terms terms = new Assignments.Terms(Purpose.FIRST, Hidden.ALL, LocalDate.of(2099, 5, 1));
        Assignments.Terms over = new Assignments.Terms(Purpose.FIRST, Hidden.ALL, LocalDate.of(2099, 4, 30));
        assertThatThrownBy(() -> assignments.give(List.of("C-1"), "A2", over))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("in the past");
        assertThatThrownBy(() -> assignments.draw(List.of(), 1, 7, over, true)).hasMessageContaining("in the past");
        assertThatThrownBy(() -> assignments.give(List.of("C-1"), "T03", terms)).hasMessageContaining("trainee of C-1");
        sign("C-1", "A1", false, 3);
        assertThatThrownBy(() -> assignments.give(List.of("C-1"), "A1", terms)).hasMessageContaining("already");
        // all or nothing
        assertThatThrownBy(() -> assignments.give(List.of("C-1", "C-9"), "A2", terms))
                .isInstanceOf(InputException.class);
        assertThat(assignments.all()).isEmpty();
        Assignment given = assignments.give(List.of("C-1"), "A2", terms).get(0);
        assertThat(given.isLate(LocalDate.of(2099, 5, 2))).isTrue();
        assertThat(given.isLate(LocalDate.of(2099, 5, 1))).isFalse();
        assertThatThrownBy(() -> assignments.give(List.of("C-1"), "A2", terms)).hasMessageContaining("already");
        assertThatThrownBy(() -> new Assignments(first, CLOCK).give(List.of("C-1"), "A3", terms))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> new Assignments(first, CLOCK).mine("A2")).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> new Assignments(first, CLOCK).all()).isInstanceOf(InputException.class);
        assignments.withdraw(given.label());
        assertThat(assignments.give(List.of("C-1"), "A2", terms).get(0).label()).isNotEqualTo(given.label());
    }

    @Test
    void aDirectorWhoMarksBlindCannotSettleThatCaseNorReadItsCode() {
        Workspace both = workspace.as(new Caller.Person("P2", Set.of(Role.DIRECTOR, Role.ASSESSOR)));
        sign("C-1", "A1", false, 4);
        new Assignments(director, CLOCK)
                .give(List.of("C-1"), "P2", new Assignments.Terms(Purpose.SECOND, Hidden.ALL, null));
        assertThat(Everything.of(new Assignments(both, CLOCK).all(), new Adjudication(both, CLOCK).disagreements()))
                .doesNotContain("C-1")
                .doesNotContain("T03");
        assertThatThrownBy(() -> new Adjudication(both, CLOCK).letStand("C-1", RUBRIC.id(), "A1", "P2", "so"))
                .isInstanceOf(InputException.class);
    }
}
