package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Progress;
import org.sideport.report.workbook.UnitFigures;
import org.sideport.report.workbook.UnitFigures.Competency;
import org.sideport.report.workbook.UnitFigures.Learning;
import org.sideport.stats.Outcome;
import org.sideport.stats.rasch.ManyFacetRasch;
import org.sideport.store.Workspace;

/** The workbook asks the same questions as the screens, and so has the same numbers. */
class SameFiguresTest {

    private static final String RUBRIC = "phaco-competency";

    @TempDir
    Path temp;

    @Test
    void theWorkbookSaysWhatTheScreensSay() {
        Clock clock = Clock.fixed(Instant.parse("2026-07-01T12:00:00Z"), ZoneOffset.UTC);
        try (Workspace workspace = Workspace.create(temp.resolve("w"))) {
            new MadeUpProgramme(workspace, 3).fill(4, 14);
            UnitFigures figures = new WriteWorkbook(workspace)
                    .whole(new WriteWorkbook.Wish("en", false, true), Progress.NONE)
                    .figures();
            CohortView cohort = new FollowCohort(workspace, clock).show(FollowCohort.Question.of(RUBRIC));
            cohort(figures, cohort);
            severity(
                    figures,
                    new FollowCohort(workspace, clock)
                            .severity(RUBRIC, null, 0.95, FollowCohort.USUAL_SEVERITY_CASES)
                            .map(FollowCohort.Severity::fit));
            reliability(figures, new Decisions(workspace, clock));
            planned(figures, cohort);
            progress(figures, new FollowProgress(workspace));
        }
    }

    private static void cohort(UnitFigures figures, CohortView cohort) {
        List<Competency> whole = figures.competencies().stream()
                .filter(c -> c.group().competency().equals(UnitFigures.WHOLE))
                .toList();
        assertThat(whole).hasSize(4);
        for (int i = 0; i < whole.size(); i++) {
            CohortView.Cell cell = cohort.rows().get(i).whole();
            Competency one = whole.get(i);
            assertThat(one.group().trainee()).isEqualTo(cohort.rows().get(i).trainee());
            assertThat(new CohortView.Cell(one.n(), one.recent(), one.mean(), one.lower(), one.upper(), one.lastDate()))
                    .isEqualTo(cell);
            // the shares beside them are those that the mean is of
            double[] latest = figures.shares().stream()
                    .filter(s -> s.group().equals(one.group()) && s.fromEnd() <= 6)
                    .mapToDouble(UnitFigures.CaseShare::share)
                    .toArray();
            assertThat(latest).hasSize(one.recent());
            if (one.mean() != null) {
                assertThat(java.util.Arrays.stream(latest).average().orElseThrow())
                        .isCloseTo(one.mean(), within(1e-12));
            }
        }
        assertThat(figures.competencies())
                .hasSize(4 * (1 + cohort.rubric().domains().size()));
        for (int i = 0; i < cohort.assessors().size(); i++) {
            assertThat(figures.assessors().get(i).difference())
                    .isEqualTo(cohort.assessors().get(i).difference());
            assertThat(figures.assessors().get(i).exact())
                    .isEqualTo(cohort.agreement().exact());
        }
    }

    private static void severity(UnitFigures figures, Outcome<ManyFacetRasch> fit) {
        fit.orElseThrow()
                .assessors()
                .forEach(measure -> assertThat(figures.assessors()).anySatisfy(a -> {
                    assertThat(a.code()).isEqualTo(measure.label());
                    assertThat(a.severity()).isEqualTo(measure.logits().value());
                    assertThat(a.severityUpper())
                            .isEqualTo(measure.logits().limits().upper());
                }));
    }

    private static void reliability(UnitFigures figures, Decisions decisions) {
        assertThat(figures.reliability()).hasSize(3);
        for (UnitFigures.Reliability one : figures.reliability()) {
            DecisionView view = decisions.show(Decisions.Question.of(one.trainee(), RUBRIC));
            Precision precision = view.precision().orElseThrow();
            assertThat(one.mean()).isEqualTo(view.mean());
            assertThat(one.phi()).isEqualTo(precision.coefficients().phi());
            assertThat(one.lower()).isEqualTo(precision.lower());
            assertThat(one.standard()).isEqualTo(view.standard().share());
            assertThat(one.distance()).isEqualTo(view.distance());
        }
    }

    private static void planned(UnitFigures figures, CohortView cohort) {
        for (Precision.More plan : cohort.planner().orElseThrow().plans()) {
            if (plan.cases() <= 12) {
                assertThat(figures.planned()).anySatisfy(p -> {
                    assertThat(p.cases()).isEqualTo(plan.cases());
                    assertThat(p.each()).isEqualTo(plan.assessorsEach());
                    assertThat(p.phi()).isEqualTo(plan.phi());
                });
            }
        }
        assertThat(figures.planned()).isNotEmpty();
    }

    private static void progress(UnitFigures figures, FollowProgress follow) {
        for (String trainee : List.of("T01", "T02", "T03", "T04")) {
            ProgressView view =
                    follow.show(new FollowProgress.Question(trainee, "phaco", null, FollowProgress.USUAL_RECENT, true));
            List<Learning> own = figures.learning().stream()
                    .filter(l -> l.trainee().equals(trainee))
                    .toList();
            assertThat(own).isNotEmpty();
            for (Learning one : own) {
                ProgressView.TermTimes term = view.times().stream()
                        .filter(t -> t.id().equals(one.phase()))
                        .findFirst()
                        .orElseThrow();
                assertThat(one.n()).isEqualTo(term.own().size());
                if (term.curve() instanceof Outcome.Found<ProgressView.Curve> found) {
                    List<ProgressView.CurvePlace> places = found.value().places();
                    assertThat(one.model())
                            .isEqualTo(found.value().model().name().toLowerCase(Locale.ROOT));
                    assertThat(one.last().upperUs())
                            .isEqualTo(places.get(places.size() - 1).highUs());
                } else {
                    assertThat(one.model()).isNull();
                }
                if (term.change() instanceof Outcome.Found<ProgressView.Change> found) {
                    assertThat(one.ratio()).isEqualTo(found.value().ratio().value());
                } else {
                    assertThat(one.ratio()).isNull();
                }
            }
            UnitFigures.Complications watched = figures.complications().stream()
                    .filter(c -> c.trainee().equals(trainee))
                    .findFirst()
                    .orElseThrow();
            if (view.monitoring() instanceof Outcome.Found<ProgressView.Monitoring> found) {
                assertThat(watched.statistic()).isEqualTo(found.value().chart().last());
                assertThat(watched.events()).isEqualTo(found.value().failures());
            } else {
                assertThat(watched.statistic()).isNull();
            }
        }
    }
}
