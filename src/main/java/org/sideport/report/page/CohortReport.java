package org.sideport.report.page;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;

/**
 * A cohort by one rubric, as the Programme screen shows it.
 *
 * @param rubric title and version
 * @param last how many of the latest cases the means are over
 * @param competencies titles of the rubric's domains
 * @param missing cases that no assessor has signed a mark of
 * @param agreement {@code null} where no two assessors marked the same case
 * @param planRefused why there is no plan; empty if there is one
 * @param leftOut cases without consent for assessment use
 * @param charts of the unit: assessors, complications, times; those that can be drawn
 * @param complications of the unit, in a sentence; empty where a chart tells it
 */
public record CohortReport(
        String rubric,
        int last,
        List<String> competencies,
        List<Row> rows,
        List<Missing> missing,
        List<Work> work,
        List<Assessor> assessors,
        @Nullable Agreement agreement,
        double wish,
        double minutesEach,
        List<Plan> plans,
        String planRefused,
        int leftOut,
        List<Chart> charts,
        String complications,
        OffsetDateTime madeAt,
        String program) {

    public CohortReport {
        competencies = List.copyOf(competencies);
        rows = List.copyOf(rows);
        missing = List.copyOf(missing);
        work = List.copyOf(work);
        assessors = List.copyOf(assessors);
        plans = List.copyOf(plans);
        charts = List.copyOf(charts);
    }

    /** @param mean share, with limits; {@code null} where unknown */
    public record Cell(
            int n,
            int recent,
            @Nullable Double mean,
            @Nullable Double lower,
            @Nullable Double upper) {}

    public record Row(
            String trainee, int cases, Cell whole, @Nullable LocalDate lastDate, List<Cell> competencies) {
        public Row {
            competencies = List.copyOf(competencies);
        }
    }

    public record Missing(String caseCode, String trainee, LocalDate date) {}

    public record Work(
            String caseCode,
            String trainee,
            String assessor,
            @Nullable LocalDate dueOn,
            boolean late) {}

    /** @param difference of the own shares less those of others on the same cases; {@code null} where unknown */
    public record Assessor(
            String code,
            int marks,
            int trainees,
            int shared,
            @Nullable Double difference,
            @Nullable Double lower,
            @Nullable Double upper) {}

    public record Agreement(
            int comparisons, double exact, @Nullable Double withinOne) {}

    public record Plan(int cases, int assessorsEach, double phi, double minutes) {}
}
