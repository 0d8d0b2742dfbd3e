package org.sideport.workflow;

import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.Progress;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.report.CompetencyWorkbook;
import org.sideport.report.WorkbookData;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.SummaryRow;
import org.sideport.timing.TimingSummary;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.ComputeTimings.TimedCase;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.ConsentGate;

/** Writes the competency workbook of all cases. */
public final class WriteWorkbook {

    private final Workspace workspace;

    public WriteWorkbook(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * @throws org.sideport.model.InputException if the file cannot be written; one that was there stays as it was
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; likewise
     */
    public void write(Path out, Progress progress) {
        Access.require(workspace, Permission.SEE_COHORT);
        CompetencyWorkbook.write(data(), out, progress);
        workspace.change(stores -> stores.audit().add("export.workbook", "workspace", "", ""));
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
        record Raw(List<SurgicalCase> cases, List<StoredRating> ratings) {}
        Raw raw = workspace.read(stores -> {
            Map<ConsentSituation, ConsentRuling> rules = stores.consents().rules();
            return new Raw(
                    stores.cases().all().stream()
                            .filter(c -> ConsentGate.allows(rules, c, ConsentPurpose.ASSESSMENT))
                            .toList(),
                    stores.ratings().all(Access.marks(stores.caller())));
        });
        Set<String> allowed = raw.cases().stream().map(SurgicalCase::code).collect(Collectors.toSet());
        List<TimedCase> timed = new ComputeTimings(workspace)
                .all(Level.PHASE).stream()
                        .filter(t -> allowed.contains(t.surgicalCase().code()))
                        .toList();
        return new WorkbookData(
                raw.cases(),
                ratings(raw.ratings().stream()
                        .filter(r -> allowed.contains(r.caseCode()))
                        .toList()),
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

    private static List<WorkbookData.CaseRating> ratings(List<StoredRating> stored) {
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
                    reason == null ? "" : reason));
        }
        return ratings;
    }

    private static @Nullable OffsetDateTime local(@Nullable Instant instant) {
        return instant == null ? null : instant.atZone(ZoneId.systemDefault()).toOffsetDateTime();
    }
}
