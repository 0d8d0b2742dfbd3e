package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Caller;
import org.sideport.model.Role;
import org.sideport.stats.Outcome;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;

class FollowCohortTest {

    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-07-01T12:00:00Z"), ZoneOffset.UTC);

    @TempDir
    Path temp;

    private Workspace workspace;
    private MadeUpMarks marks;
    private FollowCohort cohort;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        marks = new MadeUpMarks(workspace);
        cohort = new FollowCohort(workspace, CLOCK);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static FollowCohort.Question asked(String rubric, int last) {
        return new FollowCohort.Question(rubric, null, last, CohortView.By.DOMAIN, 0.8, 15);
    }

    /**
     * By hand. T01: C-1 0.45; C-2 (0.4 + 0.6) / 2 = 0.5; C-3 0.55; C-4 unmarked. Over the latest three 0.5, SD 0.05, limits
     * 0.5 ± 4.3027 × 0.05 / √3; over the latest two 0.525, without limits. A2 less A1 on the one shared case: +0.2.
     */
    @Test
    void theMatrixByHand() {
        for (int c = 1; c <= 4; c++) {
            marks.addCase("C-" + c, "T01", c);
        }
        marks.addCase("C-9", "T02", 9);
        marks.mark("C-1", "A1", "scale", true, Map.of("score", 450));
        marks.mark("C-2", "A1", "scale", true, Map.of("score", 400));
        marks.mark("C-2", "A2", "scale", true, Map.of("score", 600));
        marks.mark("C-3", "A1", "scale", true, Map.of("score", 550));
        marks.markOneself("C-4", "T01", "scale", Map.of("score", 1000));

        CohortView view = cohort.show(asked("scale", 3));
        CohortView.Cell whole = view.rows().get(0).whole();
        assertThat(whole.n()).isEqualTo(3);
        assertThat(whole.mean()).isCloseTo(0.5, within(1e-12));
        assertThat(whole.upper()).isCloseTo(0.5 + 4.3027 * 0.05 / Math.sqrt(3), within(1e-4));
        assertThat(whole.lastDate()).isEqualTo(LocalDate.of(2026, 1, 3));
        assertThat(view.rows().get(0).cases()).isEqualTo(4);
        assertThat(view.rows().get(0).competencies()).containsExactly(whole);
        CohortView.Cell none = view.rows().get(1).whole();
        assertThat(none.mean()).isNull();
        assertThat(none.n()).isZero();
        assertThat(view.missing()).extracting(CohortView.Missing::caseCode).containsExactly("C-4", "C-9");
        assertThat(view.assessors()).hasSize(2);
        assertThat(view.assessors().get(1).difference()).isCloseTo(0.2, within(1e-12));
        assertThat(view.assessors().get(1).shared()).isEqualTo(1);
        assertThat(view.assessors().get(1).lower()).isNull();
        assertThat(view.agreement().comparisons()).isEqualTo(1);
        assertThat(view.agreement().exact()).isZero();
        // marks of one trainee say nothing of how many are needed
        assertThat(view.planner()).isInstanceOf(Outcome.Refused.class);

        CohortView.Cell two = cohort.show(asked("scale", 2)).rows().get(0).whole();
        assertThat(two.mean()).isCloseTo(0.525, within(1e-12));
        assertThat(two.lower()).isNull();
    }

    /** Work given and not done, late from the day after; what was practice only counts for nobody. */
    @Test
    void lateWorkIsNamedAndPracticeDoesNotCount() throws Exception {
        marks.addCase("C-1", "T01", 1);
        marks.addCase("C-2", "T01", 2);
        marks.addCase("C-3", "T01", 3);
        marks.mark("C-3", "A2", "scale", true, Map.of("score", 100));
        workspace.close();
        try (var connection = java.sql.DriverManager.getConnection(
                        "jdbc:sqlite:" + temp.resolve("w").resolve(Workspace.STORE_FILE));
                var statement = connection.createStatement()) {
            for (String row : new String[] {
                "'a', 1, 'A1', 'first', 'L1', '', 'open', '', '2026-06-01', '2026-06-30'",
                "'b', 2, 'A1', 'first', 'L2', '', 'open', '', '2026-06-01', '2026-07-01'",
                "'c', 3, 'A1', 'first', 'L3', '', 'open', '', '2026-06-01', null",
                "'d', 3, 'A2', 'practice', 'L4', '', 'done', '', '2026-06-01', null"
            }) {
                statement.executeUpdate("insert into assignment (id, case_id, assessor, purpose, label, hidden, state,"
                        + " assigned_by, assigned_at, due_on) values (" + row + ")");
            }
        }
        workspace = Workspace.open(temp.resolve("w"));
        CohortView view = new FollowCohort(workspace, CLOCK).show(asked("scale", 6));
        assertThat(view.work()).extracting(CohortView.Work::caseCode).containsExactly("C-1", "C-2", "C-3");
        assertThat(view.work()).extracting(CohortView.Work::late).containsExactly(true, false, false);
        assertThat(view.missing()).hasSize(3);
    }

    /** The same question, the same number: the whole mean of each trainee is that of the workbook's overview. */
    @Test
    void meansAreThoseOfTheWorkbook() {
        for (int c = 1; c <= 8; c++) {
            marks.addCase("C-" + c, "T0" + (1 + c % 2), c);
            marks.mark("C-" + c, "A1", "five", true, Map.of("i1", 1 + c % 5, "i2", 3, "i3", 2, "i4", 5, "i5", 1));
            if (c % 3 == 0) {
                marks.mark("C-" + c, "A2", "five", true, Map.of("i1", 5, "i2", 4, "i3", 2, "i4", 5, "i5", 1));
            }
        }
        CohortView view = cohort.show(asked("five", FollowCohort.USUAL_LAST));
        var rows = org.sideport.report.workbook.CohortOverview.of(new WriteWorkbook(workspace).data());
        assertThat(rows).hasSize(2);
        for (int t = 0; t < 2; t++) {
            assertThat(view.rows().get(t).whole().mean()).isCloseTo(rows.get(t).recentShare(), within(1e-12));
            assertThat(view.rows().get(t).whole().n()).isEqualTo(rows.get(t).assessed());
        }
    }

    /**
     * By hand: i1 of C-1 to C-3 with 2, 3, 4 of 5 points: shares .4, .6, .8, mean .6; a cell opens its marks, the latest first.
     *.
     */
    @Test
    void anItemsCellOpensItsMarks() {
        for (int c = 1; c <= 3; c++) {
            marks.addCase("C-" + c, "T01", c);
            marks.mark("C-" + c, "A1", "five", true, Map.of("i1", 1 + c, "i2", 5));
        }
        CohortView view = cohort.show(new FollowCohort.Question("five", null, 6, CohortView.By.ITEM, 0.8, 15));
        assertThat(view.competencies()).extracting(CohortView.Competency::id).startsWith("i1", "i2");
        CohortView.Cell cell = view.rows().get(0).competencies().get(0);
        assertThat(cell.mean()).isCloseTo(0.6, within(1e-12));
        assertThat(cell.isEnough()).isTrue();
        assertThat(view.rows().get(0).competencies().get(2).mean())
                .as("nobody marked it")
                .isNull();

        CellMarks behind = cohort.marks("five", null, "T01", "i1");
        assertThat(behind.marks()).extracting(CellMarks.OneMark::caseCode).containsExactly("C-3", "C-2", "C-1");
        assertThat(behind.marks().get(0).share()).isCloseTo(0.8, within(1e-12));
        assertThat(behind.marks().get(0).items()).hasSize(1);
        assertThat(behind.marks().get(0).others())
                .as("the whole rating is at hand")
                .extracting(CellMarks.OneItem::item)
                .containsExactly("i2");
        assertThat(behind.marks()).as("nobody added a recording").noneMatch(CellMarks.OneMark::recorded);
        assertThat(cohort.marks("five", null, "T01", null).marks().get(0).items())
                .hasSize(2);
        assertThatThrownBy(() -> cohort.marks("five", null, "T01", "i9")).hasMessageContaining("neither a domain");

        TestRows.assign(workspace, "C-2", "D1", "open");
        CellMarks unmarked = new FollowCohort(workspace.as(new Caller.Person("D1", Set.of(Role.DIRECTOR))), CLOCK)
                .marks("five", null, "T01", "i1");
        assertThat(unmarked.marks())
                .as("a director who has still to mark C-2")
                .extracting(CellMarks.OneMark::caseCode)
                .containsExactly("C-3", "C-1");
        assertThat(unmarked.withheld()).isEqualTo(1);
    }

    /** The marking screen shows points 1 to 5; so do the levels of severity, and a mean level is a mean of points. */
    @Test
    void levelsOfSeverityAreThePointsOfTheRubric() {
        int[][] points = {{1, 2, 3, 4, 5}, {2, 3, 3, 5, 4}, {3, 1, 4, 2, 5}, {4, 2, 5, 3, 1}};
        for (int c = 0; c < points.length; c++) {
            marks.addCase("C-" + c, "T01", c + 1);
            for (int a = 1; a <= 2; a++) {
                Map<String, Integer> given = new java.util.HashMap<>();
                for (int i = 0; i < 5; i++) {
                    given.put("i" + (i + 1), Math.min(5, points[c][i] + (a == 1 ? 0 : 1)));
                }
                marks.mark("C-" + c, "A" + a, "five", true, given);
            }
        }
        var fit = cohort.severity("five", null, 0.95, 0).orElseThrow().fit();
        assertThat(fit.lowest()).isEqualTo(1);
        assertThat(fit.highest()).isEqualTo(5);
        // by hand: the sum of all points above is 62, over 20 marks 3.1
        assertThat(fit.assessors().stream()
                        .filter(m -> m.label().equals("A1"))
                        .findFirst()
                        .orElseThrow()
                        .meanLevel())
                .isCloseTo(3.1, within(1e-12));
        assertThat(cohort.severity("five", null, 0.95, 3).orElseThrow().leftOut())
                .isEqualTo(1);
    }

    @Test
    void onlyADirectorFollowsTheCohort() {
        for (Role role : new Role[] {Role.ASSESSOR, Role.TRAINEE}) {
            FollowCohort theirs = new FollowCohort(workspace.as(new Caller.Person("A1", Set.of(role))), CLOCK);
            assertThatThrownBy(() -> theirs.show(asked("scale", 6))).hasMessageContaining("see cohort");
        }
        assertThatThrownBy(() -> cohort.show(asked("scale", 0))).hasMessageContaining("cannot be shown");
    }
}
