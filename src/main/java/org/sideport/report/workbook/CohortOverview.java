package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.rubric.RubricRef;
import org.sideport.timing.CaseTiming;

/** The cohort in few figures, the same as on the workbook's sheet "Cohort". */
public final class CohortOverview {

    private CohortOverview() {}

    /**
     * One trainee by one rubric.
     *
     * @param rubric {@code null} where no case has been assessed
     * @param assessed cases with a rating that counts by this rubric
     * @param share mean share over them; {@code null} without one
     * @param recentShare the same over the latest of them; {@code null} likewise
     * @param recent how many are in that mean
     * @param casesWithComplication tagged cases with an event that is a complication
     * @param operatingUs median operating time, microseconds; {@code null} if none is known and sure
     */
    public record Row(
            String trainee,
            int cases,
            @Nullable String rubric,
            int assessed,
            @Nullable Double share,
            @Nullable Double recentShare,
            int recent,
            int casesWithComplication,
            @Nullable Double operatingUs) {}

    /** Rows by trainee, then rubric. */
    public static List<Row> of(WorkbookData data) {
        Lookup lookup = new Lookup(data);
        Assessments assessments = new Assessments(data, lookup);
        Cohort cohort = new Cohort(data, lookup, assessments);
        List<Row> rows = new ArrayList<>();
        for (Cohort.Trainee trainee : cohort.trainees()) {
            List<RubricRef> used = trainee.counted().stream()
                    .map(Assessments.Scored::rubric)
                    .distinct()
                    .toList();
            if (used.isEmpty()) {
                rows.add(row(cohort, trainee, null, List.of(), data.recentCases()));
            }
            for (RubricRef rubric : used) {
                rows.add(row(cohort, trainee, rubric.toString(), trainee.shares(rubric), data.recentCases()));
            }
        }
        return rows;
    }

    private static Row row(
            Cohort cohort, Cohort.Trainee trainee, @Nullable String rubric, List<Double> shares, int recentCases) {
        List<Double> recent = Cohort.last(shares, recentCases);
        return new Row(
                trainee.code(),
                trainee.cases().size(),
                rubric,
                shares.size(),
                Cohort.mean(shares),
                Cohort.mean(recent),
                recent.size(),
                cohort.complications(trainee).size(),
                Cohort.median(trainee, CaseTiming::sureOperatingUs));
    }
}
