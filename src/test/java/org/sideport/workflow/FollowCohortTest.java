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
        workspace = Workspace.create(temp.resolve("w"));
        marks = new MadeUpMarks(workspace);
        cohort = new FollowCohort(workspace, CLOCK);
    }

    @AfterEach
    void close() {
        workspace.close();
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

        CohortView view = cohort.show("scale", null, 3, 0.8, 15);
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

        CohortView.Cell two =
                cohort.show("scale", null, 2, 0.8, 15).rows().get(0).whole();
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
        CohortView view = new FollowCohort(workspace, CLOCK).show("scale", null, 6, 0.8, 15);
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
        CohortView view = cohort.show("five", null, FollowCohort.USUAL_LAST, 0.8, 15);
        var rows = org.sideport.report.workbook.CohortOverview.of(new WriteWorkbook(workspace).data());
        assertThat(rows).hasSize(2);
        for (int t = 0; t < 2; t++) {
            assertThat(view.rows().get(t).whole().mean()).isCloseTo(rows.get(t).recentShare(), within(1e-12));
            assertThat(view.rows().get(t).whole().n()).isEqualTo(rows.get(t).assessed());
        }
    }

    @Test
    void onlyADirectorFollowsTheCohort() {
        for (Role role : new Role[] {Role.ASSESSOR, Role.TRAINEE}) {
            FollowCohort theirs = new FollowCohort(workspace.as(new Caller.Person("A1", Set.of(role))), CLOCK);
            assertThatThrownBy(() -> theirs.show("scale", null, 6, 0.8, 15)).hasMessageContaining("see cohort");
        }
        assertThatThrownBy(() -> cohort.show("scale", null, 0, 0.8, 15)).hasMessageContaining("cannot be shown");
    }
}
