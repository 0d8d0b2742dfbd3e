package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.AuditEvent;
import org.sideport.model.Caller;
import org.sideport.model.Decision;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.stats.Outcome;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;

class DecisionsTest {

    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-07-01T12:00:00Z"), ZoneOffset.UTC);
    private static final LocalDate TODAY = LocalDate.of(2026, 7, 1);

    @TempDir
    Path temp;

    private Workspace workspace;
    private MadeUpMarks marks;
    private Decisions decisions;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        marks = new MadeUpMarks(workspace);
        decisions = new Decisions(workspace, CLOCK);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private DecisionView show(String trainee) {
        return decisions.show(Decisions.Question.of(trainee, "scale"));
    }

    /** Shrout & Fleiss 1979 (Psychological Bulletin 86:420, table 2): one case of each of 6 trainees by 4 assessors. */
    private void shroutAndFleiss() {
        int[][] table = {{9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}};
        for (int t = 0; t < table.length; t++) {
            marks.addCase("C-" + (t + 1), "T0" + (t + 1), 10 + t);
            for (int a = 0; a < 4; a++) {
                marks.mark("C-" + (t + 1), "A" + (a + 1), "scale", a > 0, Map.of("score", 100 * table[t][a]));
            }
        }
    }

    /**
     * The published ICC(2,4) .62 and ICC(3,4) .91 (further digits: R psych) are Φ and G of the mean of four assessors;
     * published components person 2.556, rater 5.244, residual 1.019 (scores of 10, hence divided by 100).
     */
    @Test
    void thePublishedReliabilityOfFourAssessorsIsShown() {
        shroutAndFleiss();
        DecisionView view = show("T05");

        Precision precision = view.precision().orElseThrow();
        assertThat(precision.coefficients().phi()).isCloseTo(0.6200505476, within(1e-4));
        assertThat(precision.coefficients().g()).isCloseTo(0.9093155424, within(1e-4));
        // SEM of the mean of four: √((5.244444 + 1.019444) / 4) = 1.251388 of 10
        assertThat(precision.coefficients().semAbsolute()).isCloseTo(0.1251388, within(1e-5));
        // (10 + 5 + 6 + 9) / 4 = 7.5; 1.96 SEM beside
        assertThat(view.mean()).isCloseTo(0.75, within(1e-12));
        assertThat(precision.lower()).isCloseTo(0.75 - 1.959964 * 0.1251388, within(2e-5));
        assertThat(precision.enough()).isFalse();
        // severity alone leaves Φ at 2.5556 / (2.5556 + 5.2444 / 4) = .66 with these four assessors, whatever the cases
        assertThat(precision.more()).isEmpty();
        assertThat(view.cases()).isEqualTo(1);
        assertThat(view.assessors()).isEqualTo(4);
        assertThat(view.blindMarks()).isEqualTo(3);
        assertThat(view.notes()).anyMatch(n -> n.startsWith("1 of 4 marks was given by assessors who could know"));
        assertThat(precision.study().components())
                .extracting(Precision.Component::variance)
                .usingElementComparator(java.util.Comparator.comparingDouble(v -> Math.round(1e5 * v)))
                .contains(0.02555556, 0.05244444, 0.01019444);
    }

    /**
     * Simulation with known components: 40 trainees, 3 cases each, every case by 2 of 4 assessors; SD of trainees 10, of
     * assessors 4, of cases 8, of marks 5 points of per cent. True Φ of 3 cases by the same two assessors each: 100 / (100 +
     * 16/2 + 64/3 + 25/6) = .749; components of 40 trainees and
     * 4 assessors leave some play.
     */
    @Test
    void knownComponentsComeBack() {
        Random random = new Random(11);
        double[] severity = {-4, -1, 1, 4};
        for (int t = 1; t <= 40; t++) {
            double skill = 50 + 10 * random.nextGaussian();
            for (int c = 1; c <= 3; c++) {
                String code = "C-" + t + "-" + c;
                marks.addCase(code, "T" + t, 10 * c);
                double ofCase = skill + 8 * random.nextGaussian();
                for (int a = 0; a < 2; a++) {
                    int who = (t + a) % 4;
                    double share = ofCase - severity[who] + 5 * random.nextGaussian();
                    marks.mark(code, "A" + who, "scale", true, Map.of("score", (int) Math.round(10 * share)));
                }
            }
        }
        Precision precision = show("T7").precision().orElseThrow();

        assertThat(precision.coefficients().phi()).isBetween(0.65, 0.83);
        double universe = precision.coefficients().universe();
        assertThat(Math.sqrt(universe)).isBetween(0.07, 0.13);
        assertThat(precision.enough()).isEqualTo(precision.coefficients().phi() >= 0.8);
        DecisionView strict = decisions.show(new Decisions.Question("T7", "scale", null, 0, 0.9, 20));
        Precision.More one = strict.precision().orElseThrow().more().stream()
                .filter(m -> m.assessorsEach() == 1)
                .findFirst()
                .orElseThrow();
        assertThat(one.phi()).isGreaterThanOrEqualTo(0.9);
        assertThat(one.minutes()).isEqualTo(20.0 * one.cases());
        assertThat(strict.precision().orElseThrow().more())
                .allMatch(m -> m.assessorsEach() == 1 || m.cases() < one.cases());
    }

    /** Only the latest cases, a case's mean over its assessors first: (0.2 + 0.6) / 2 = 0.4 and 0.8, mean 0.6. */
    @Test
    void theLatestCasesAreTakenAndACaseCountsOnce() {
        for (int c = 1; c <= 3; c++) {
            marks.addCase("C-" + c, "T01", c);
        }
        marks.mark("C-1", "A1", "scale", true, Map.of("score", 0));
        marks.mark("C-2", "A1", "scale", true, Map.of("score", 200));
        marks.mark("C-2", "A2", "scale", true, Map.of("score", 600));
        marks.mark("C-3", "A1", "scale", true, Map.of("score", 800));
        marks.markOneself("C-3", "T01", "scale", Map.of("score", 1000));

        DecisionView view = decisions.show(new Decisions.Question("T01", "scale", null, 2, 0.8, 15));
        assertThat(view.mean()).isCloseTo(0.6, within(1e-12));
        assertThat(view.marks()).hasSize(3);
        // one trainee only: nothing can be said of how sure it is
        assertThat(view.precision()).isInstanceOf(Outcome.Refused.class);
        assertThat(DecisionFigures.of(view)).containsEntry("enough", false).containsEntry("phi", null);
    }

    @Test
    void theStandardInForceStandsBesideTheMeanWithoutAVerdict() {
        shroutAndFleiss();
        Standards standards = new Standards(workspace, CLOCK);
        standards.agree(
                standards.propose("scale", null, new CutBasis.Given(0.6)).orElseThrow(), List.of("A1"), TODAY, "");

        DecisionView view = show("T05");
        assertThat(view.standard().share()).isEqualTo(0.6);
        assertThat(view.distance()).isCloseTo(0.15, within(1e-12));
        assertThat(view.distanceError()).isCloseTo(0.1251388, within(1e-5));
        assertThat(view.notes()).anyMatch(n -> n.startsWith("The standard's own error is not known"));
        assertThat(DecisionFigures.of(view).keySet()).noneMatch(k -> k.contains("pass") || k.contains("verdict"));
        assertThat(show("T01").standard()).isNotNull();
    }

    @Test
    void aDecisionIsKeptWithWhatWasShown() {
        shroutAndFleiss();
        Decisions.Question question = Decisions.Question.of("T05", "scale");
        String digest = DecisionFigures.digest(decisions.show(question));
        Decision kept = decisions.record(question, " Goes on under supervision. ", List.of("A1", "A2"), TODAY, digest);

        assertThat(decisions.of("T05")).containsExactly(kept);
        assertThat(kept.wording()).isEqualTo("Goes on under supervision.");
        assertThat(kept.shownDigest()).isEqualTo(digest);
        assertThat(kept.shown()).contains("\"trainee\":\"T05\"");
        AuditEvent event = workspace.<List<AuditEvent>>read(s -> s.audit().all()).stream()
                .filter(e -> e.deed().startsWith("decision."))
                .findFirst()
                .orElseThrow();
        assertThat(event.deed()).isEqualTo("decision.record");
        assertThat(event.subject()).isEqualTo("T05");
        assertThat(event.after()).contains(digest).doesNotContain("supervision");

        marks.addCase("C-9", "T05", 100);
        marks.mark("C-9", "A1", "scale", true, Map.of("score", 500));
        assertThatThrownBy(() -> decisions.record(question, "Again", List.of("A1"), TODAY, digest))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("the figures have changed");
        assertThatThrownBy(() -> decisions.record(question, " ", List.of("A1"), TODAY, null))
                .hasMessageContaining("what was decided is not said");
        assertThatThrownBy(() -> decisions.record(question, "x", List.of(), TODAY, null))
                .isInstanceOf(InputException.class);
        assertThat(decisions.of("T05")).hasSize(1);
    }

    /** The panel's figures are one, whoever looks; single marks are not shown to who has still to mark that case. */
    @Test
    void whoHasStillToMarkACaseSeesItsMarksCountedButNotOneByOne() {
        shroutAndFleiss();
        TestRows.assign(workspace, "C-5", "D1", "open");
        Decisions theirs = new Decisions(workspace.as(new Caller.Person("D1", Set.of(Role.DIRECTOR))), CLOCK);
        DecisionView view = theirs.show(Decisions.Question.of("T05", "scale"));

        assertThat(view.marks()).hasSize(4);
        assertThat(view.shown()).isEmpty();
        assertThat(view.withheld()).hasSize(4);
        assertThat(view.mean()).isEqualTo(show("T05").mean());
        assertThat(DecisionFigures.digest(view)).isEqualTo(DecisionFigures.digest(show("T05")));
        assertThat(DecisionFigures.of(view)).containsEntry("marks", List.of());
        assertThat(theirs.show(Decisions.Question.of("T04", "scale")).shown()).hasSize(4);
    }

    @Test
    void nobodyButADirectorLooksOrRecords() {
        shroutAndFleiss();
        for (Role role : List.of(Role.TRAINEE, Role.ASSESSOR)) {
            Decisions theirs = new Decisions(workspace.as(new Caller.Person("T05", Set.of(role))), CLOCK);
            assertThatThrownBy(() -> theirs.show(Decisions.Question.of("T05", "scale")))
                    .hasMessageContaining("see cohort");
            assertThatThrownBy(() -> theirs.of("T05")).hasMessageContaining("see cohort");
            assertThatThrownBy(theirs::trainees).hasMessageContaining("see cohort");
            assertThatThrownBy(
                            () -> theirs.record(Decisions.Question.of("T05", "scale"), "x", List.of("A1"), TODAY, null))
                    .hasMessageContaining("record decision");
        }
        assertThat(new Decisions(workspace.as(new Caller.Person("D1", Set.of(Role.DIRECTOR))), CLOCK).trainees())
                .hasSize(6);
    }

    @Test
    void faultsAreNamed() {
        assertThatThrownBy(() -> show("T77")).hasMessageContaining("there is no case of trainee \"T77\"");
        assertThatThrownBy(() -> new Decisions.Question("T1", "scale", null, -1, 0.8, 15))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> new Decisions.Question("T1", "scale", null, 0, 1, 15))
                .isInstanceOf(InputException.class);
        marks.addCase("C-1", "T01", 1);
        assertThat(((Outcome.Refused<Precision>) show("T01").precision())
                        .refusal()
                        .why())
                .isEqualTo("there is no signed mark of this trainee with this rubric");
        assertThatThrownBy(() -> decisions.show(new Decisions.Question("T01", "scale", "9.9", 0, 0.8, 15)))
                .hasMessageContaining("nothing was ever marked with version 9.9");
    }
}
