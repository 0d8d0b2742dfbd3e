package org.sideport.workflow.handout;

import java.nio.file.Path;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Rubric;
import org.sideport.report.AtomicFile;
import org.sideport.report.page.CohortPage;
import org.sideport.report.page.CohortReport;
import org.sideport.report.page.PageWords;
import org.sideport.stats.Outcome;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortTimes;
import org.sideport.workflow.CohortTimesView;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.ComplicationsView;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.Program;
import org.sideport.workflow.UnitComplications;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.progress.ProgressWords;
import org.sideport.workflow.progress.UnitCharts;

/** Writes the report on a cohort by one rubric: the figures of the Programme screen, for directors. */
public final class WriteCohortReport {

    private final Workspace workspace;
    private final Clock clock;

    public WriteCohortReport(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
    }

    /**
     * @param rubric id; {@code null} for the one with most signed marks
     * @param last how many of the latest marked cases the means are over, at least 1
     * @param language {@code en} or {@code de}
     * @param out a PDF file
     * @throws InputException if the caller may not see the cohort, there is no such rubric or no signed mark, or the file
     *     cannot be written
     */
    public CohortView write(@Nullable String rubric, int last, String language, Path out, Progress progress) {
        Access.require(workspace, Permission.SEE_COHORT);
        PageWords words = PageWords.of(language);
        CohortView view = new FollowCohort(workspace, clock)
                .show(new FollowCohort.Question(
                        rubric == null ? "" : rubric,
                        null,
                        last,
                        CohortView.By.DOMAIN,
                        Decisions.USUAL_WISH,
                        Decisions.USUAL_MINUTES));
        progress.check();
        CohortReport report = report(view, words);
        AtomicFile.write(out, to -> CohortPage.pdf(report, words, to));
        workspace.change(
                stores -> stores.audit().add("export.cohort", view.rubric().id(), "", ""));
        progress.report(1, "Written");
        return view;
    }

    /** The same as on the screens, at their first settings. */
    private List<Chart> charts(CohortView view, ComplicationsView complications, UnitCharts drawn) {
        String procedure = view.rubric().procedure();
        List<Chart> all = new ArrayList<>();
        drawn.assessors(view).ifPresent(all::add);
        drawn.funnel(complications).ifPresent(all::add);
        CohortTimesView times = new CohortTimes(workspace).show(procedure, view.last());
        if (!times.terms().isEmpty()) {
            all.addAll(drawn.times(times, null, false));
        }
        return all;
    }

    private CohortReport report(CohortView view, PageWords words) {
        UnitCharts drawn = new UnitCharts(new ProgressWords(words.locale()));
        ComplicationsView complications = new UnitComplications(workspace)
                .show(new UnitComplications.Question(view.rubric().procedure(), Set.of(), 0));
        Rubric rubric = view.rubric().in(words.language());
        CohortView.Agreement agreement = view.agreement();
        CohortView.Planner planner =
                view.planner() instanceof Outcome.Found<CohortView.Planner> found ? found.value() : null;
        return new CohortReport(
                rubric.title() + " " + rubric.version(),
                view.last(),
                rubric.domains().stream().map(Rubric.Domain::title).toList(),
                view.rows().stream()
                        .map(r -> new CohortReport.Row(
                                r.trainee(),
                                r.cases(),
                                cell(r.whole()),
                                r.whole().lastDate(),
                                r.competencies().stream()
                                        .map(WriteCohortReport::cell)
                                        .toList()))
                        .toList(),
                view.missing().stream()
                        .map(m -> new CohortReport.Missing(m.caseCode(), m.trainee(), m.date()))
                        .toList(),
                view.work().stream()
                        .map(w -> new CohortReport.Work(w.caseCode(), w.trainee(), w.assessor(), w.dueOn(), w.late()))
                        .toList(),
                view.assessors().stream()
                        .map(a -> new CohortReport.Assessor(
                                a.code(), a.marks(), a.trainees(), a.shared(), a.difference(), a.lower(), a.upper()))
                        .toList(),
                agreement == null
                        ? null
                        : new CohortReport.Agreement(agreement.comparisons(), agreement.exact(), agreement.withinOne()),
                Decisions.USUAL_WISH,
                Decisions.USUAL_MINUTES,
                planner == null
                        ? List.of()
                        : planner.plans().stream()
                                .map(p -> new CohortReport.Plan(p.cases(), p.assessorsEach(), p.phi(), p.minutes()))
                                .toList(),
                view.planner() instanceof Outcome.Refused<CohortView.Planner> refused
                        ? refused.refusal().why()
                        : "",
                view.leftOut().cases(),
                charts(view, complications, drawn),
                drawn.funnel(complications).isPresent() ? "" : drawn.sentence(complications),
                OffsetDateTime.now(clock),
                Program.VERSION);
    }

    private static CohortReport.Cell cell(CohortView.Cell cell) {
        return new CohortReport.Cell(cell.n(), cell.recent(), cell.mean(), cell.lower(), cell.upper());
    }
}
