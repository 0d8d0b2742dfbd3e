package org.sideport.workflow;

import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Cut;
import org.sideport.model.Progress;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.Standard;
import org.sideport.model.SurgicalCase;
import org.sideport.report.workbook.CompetencyCsv;
import org.sideport.report.workbook.CompetencyWorkbook;
import org.sideport.report.workbook.WorkbookData;
import org.sideport.report.workbook.WorkbookOptions;
import org.sideport.rubric.RubricRef;
import org.sideport.store.CohortStore;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.SummaryRow;
import org.sideport.timing.TimingSummary;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.ComputeTimings.TimedCase;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;

/** Writes the competency workbook of all cases. */
public final class WriteWorkbook {

    /** How much of the work is done when all is computed. */
    private static final double COMPUTED = 0.5;

    private final Workspace workspace;

    public WriteWorkbook(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * What is asked for.
     *
     * @param language of the headers, such as {@code de}
     * @param shared whether it goes outside: no single cases, small counts masked as the unit's rules say
     * @param logs whose logs whoever asks states to be complete
     */
    public record Wish(String language, boolean shared, CompleteLogs logs) {

        /** English, for the unit itself, nothing stated. */
        public static final Wish USUAL = new Wish("en", false, CompleteLogs.all(false));
    }

    /** As {@link #write(Path, Wish, Progress)}, as usual. */
    public void write(Path out, Progress progress) {
        write(out, Wish.USUAL, progress);
    }

    /**
     * @throws org.sideport.model.InputException if the file cannot be written; one that was there stays as it was
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; likewise
     */
    public void write(Path out, Wish wish, Progress progress) {
        Access.require(workspace, Permission.SEE_COHORT);
        CompetencyWorkbook.requireName(out);
        WorkbookData data = whole(wish, progress.part(0, COMPUTED));
        CompetencyWorkbook.write(data, options(wish), out, progress.part(COMPUTED, 1));
        audit(wish);
    }

    /**
     * The same tables as CSV files.
     *
     * @return the files
     * @throws org.sideport.model.InputException if they cannot be written
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing has changed then
     */
    public List<Path> writeCsv(Path folder, Wish wish, Progress progress) {
        Access.require(workspace, Permission.SEE_COHORT);
        WorkbookData data = whole(wish, progress.part(0, COMPUTED));
        List<Path> files = CompetencyCsv.write(data, options(wish), folder, progress.part(COMPUTED, 1));
        audit(wish);
        return files;
    }

    private void audit(Wish wish) {
        workspace.change(
                stores -> stores.audit().add("export.workbook", "workspace", "", wish.shared() ? "shared" : ""));
    }

    private WorkbookOptions options(Wish wish) {
        return workspace.read(stores -> new WorkbookOptions(
                wish.language(),
                wish.shared(),
                stores.rules().fewestPeers(FollowProgress.USUAL_PEERS),
                CountedCases.forAssessment(stores, stores.cases().bare())
                        .leftOut(c -> true)
                        .sentence()));
    }

    /** {@link #data()} with all figures computed of it. */
    WorkbookData whole(Wish wish, Progress progress) {
        WorkbookData data = data();
        progress.check();
        progress.report(0.1, "computing");
        Set<RubricRef> used = data.ratings().stream()
                .filter(r -> r.state() == RatingState.SIGNED && !r.rating().self())
                .map(r -> RubricRef.of(r.rubric()))
                .collect(Collectors.toCollection(LinkedHashSet::new));
        record Read(
                List<WorkbookFigures.Marked> marked,
                List<Standard> standards,
                Map<String, List<Cut>> cuts,
                CountedCases counted) {}
        Vocabularies vocabularies = new Vocabularies(workspace);
        Read read = workspace.read(stores -> new Read(
                used.stream()
                        .map(ref -> marked(stores, vocabularies, ref, data))
                        .toList(),
                stores.standards().all(),
                stores.cuts().all(),
                CountedCases.forAssessment(stores, stores.cases().bare())));
        WorkbookFigures figures = new WorkbookFigures(data.recentCases(), read.standards());
        for (WorkbookFigures.Marked one : read.marked()) {
            progress.check();
            figures.add(one);
        }
        WorkbookCourse course = new WorkbookCourse(data.recentCases(), wish.logs());
        List<TimedCase> timed =
                new ComputeTimings(workspace).counted(Level.PHASE).cases();
        Map<String, List<SurgicalCase>> byProcedure = data.cases().stream()
                .collect(Collectors.groupingBy(SurgicalCase::procedure, TreeMap::new, Collectors.toList()));
        byProcedure.forEach((id, cases) -> course.add(
                vocabularies.procedure(id),
                cases,
                read.counted(),
                timed.stream()
                        .filter(t -> t.surgicalCase().procedure().equals(id))
                        .toList(),
                read.cuts(),
                progress.part(0.3, 1)));
        return data.with(figures.with(course));
    }

    private static WorkbookFigures.Marked marked(
            Stores stores, Vocabularies vocabularies, RubricRef ref, WorkbookData data) {
        Rubric rubric = SignedMarks.rubric(stores, vocabularies, ref.id(), ref.version())
                .rubric();
        return new WorkbookFigures.Marked(
                rubric,
                SignedMarks.of(stores, rubric).all(),
                data.cases().stream()
                        .filter(c -> c.procedure().equals(rubric.procedure()))
                        .toList());
    }

    /** True if the caller may write it. */
    public boolean isOffered() {
        return Access.may(workspace.caller(), Permission.SEE_COHORT);
    }

    /**
     * What goes into the workbook, and into every other view of the cohort: all cases but those that may not be used for
     * assessment by their consent and the unit's rules.
     */
    public WorkbookData data() {
        Access.require(workspace, Permission.SEE_COHORT);
        record Raw(CountedCases counted, List<StoredRating> ratings, CohortStore.Practice practice) {}
        Raw raw = workspace.read(stores -> new Raw(
                CountedCases.forAssessment(stores, stores.cases().all()),
                stores.ratings().all(Access.marks(stores.caller())),
                stores.cohort().practice()));
        List<TimedCase> timed =
                new ComputeTimings(workspace).counted(Level.PHASE).cases();
        return new WorkbookData(
                raw.counted().cases(),
                ratings(
                        raw.ratings().stream()
                                .filter(r -> raw.counted().has(r.caseCode()))
                                .toList(),
                        raw.practice()),
                timed.stream()
                        .map(t -> new WorkbookData.CaseTagging(
                                t.surgicalCase().code(), t.timing().annotator(), t.tagging(), t.recordingEnd()))
                        .toList(),
                timed.stream().map(TimedCase::timing).toList(),
                "Trainee",
                summary(timed),
                new Vocabularies(workspace).procedures(),
                WorkbookData.USUAL_RECENT_CASES,
                OffsetDateTime.now(ZoneId.systemDefault()),
                Program.VERSION);
    }

    /** All cases together first, then by trainee. */
    private static List<SummaryRow> summary(List<TimedCase> timed) {
        IdentityHashMap<CaseTiming, String> trainees = new IdentityHashMap<>();
        List<CaseTiming> timings = new ArrayList<>();
        for (TimedCase one : timed) {
            timings.add(one.timing());
            trainees.put(one.timing(), one.surgicalCase().trainee());
        }
        List<SummaryRow> rows = new ArrayList<>(TimingSummary.of(timings, t -> ""));
        rows.addAll(TimingSummary.of(timings, t -> trainees.getOrDefault(t, "")));
        return rows;
    }

    private static List<WorkbookData.CaseRating> ratings(List<StoredRating> stored, CohortStore.Practice practice) {
        Map<String, Rubric> rubrics = new HashMap<>();
        List<WorkbookData.CaseRating> ratings = new ArrayList<>();
        for (StoredRating one : stored) {
            Rubric rubric = rubrics.computeIfAbsent(
                    one.rating().rubric() + " " + one.rating().rubricVersion(), key -> StoredRubrics.of(one));
            String reason = one.reason();
            ratings.add(new WorkbookData.CaseRating(
                    one.caseCode(),
                    one.rating(),
                    rubric,
                    one.state(),
                    local(one.signedAt()),
                    reason == null ? "" : reason,
                    !one.rating().self()
                            && practice.isMark(one.caseCode(), one.rating().assessor())));
        }
        return ratings;
    }

    private static @Nullable OffsetDateTime local(@Nullable Instant instant) {
        return instant == null ? null : instant.atZone(ZoneId.systemDefault()).toOffsetDateTime();
    }
}
