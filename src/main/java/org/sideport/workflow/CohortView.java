package org.sideport.workflow;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Rubric;
import org.sideport.stats.Outcome;
import org.sideport.workflow.consent.LeftOut;

/**
 * A cohort by one rubric: how far each trainee's signed marks have come, what work is missing, how assessors differ, and
 * how much marking a decision would take.
 *
 * @param last how many of the latest cases the means are over
 * @param competencies what the columns are
 * @param rows by trainee; those without a mark too
 * @param missing cases of the rubric's procedure that no assessor has signed a mark of, the oldest first
 * @param work given to assessors and not done, the earliest due first
 * @param assessors by code
 * @param agreement {@code null} where no two assessors marked the same case
 * @param planner refused, in plain words, where the marks are too few
 * @param leftOut cases of the rubric's procedure that do not count here
 */
public record CohortView(
        Rubric rubric,
        int last,
        List<Competency> competencies,
        List<Row> rows,
        List<Missing> missing,
        List<Work> work,
        List<Assessor> assessors,
        @Nullable Agreement agreement,
        Outcome<Planner> planner,
        LeftOut leftOut) {

    public CohortView {
        competencies = List.copyOf(competencies);
        rows = List.copyOf(rows);
        missing = List.copyOf(missing);
        work = List.copyOf(work);
        assessors = List.copyOf(assessors);
    }

    /** Below, a mean says too little to be read as one; as many as limits need. */
    public static final int FEWEST = 3;

    /** What a competency is. */
    public enum By {
        /** the rubric's domains */
        DOMAIN,
        /** its items, one by one */
        ITEM
    }

    /**
     * @param id of the domain or item
     * @param most points that an item can get; 0 for a domain
     */
    public record Competency(String id, String title, int most) {}

    /**
     * @param n marked cases
     * @param recent how many of them are in the mean
     * @param mean share over the latest cases, a case's assessors averaged first; {@code null} without a marked case
     * @param lower limit of the mean by Student's t over those cases, not below 0; {@code null} below three
     * @param upper likewise, not above 1
     * @param lastDate day of the latest marked case
     */
    public record Cell(
            int n,
            int recent,
            @Nullable Double mean,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable LocalDate lastDate) {

        /** True if there are enough cases for the mean to be read as one. */
        public boolean isEnough() {
            return recent >= FEWEST;
        }
    }

    /**
     * @param cases all cases of the trainee in the rubric's procedure, marked or not
     * @param whole over all items
     * @param competencies one for each of the view's, in their order
     */
    public record Row(String trainee, int cases, Cell whole, List<Cell> competencies) {
        public Row {
            competencies = List.copyOf(competencies);
        }
    }

    public record Missing(String caseCode, String trainee, LocalDate date) {}

    /** @param late true if the day has passed */
    public record Work(
            String caseCode,
            String trainee,
            String assessor,
            @Nullable LocalDate dueOn,
            boolean late) {}

    /**
     * @param shared cases that others marked too
     * @param difference mean over these of the own share less the mean of the others: below 0 is severe; {@code null}
     *     without such a case
     * @param lower limit of that by Student's t over cases; {@code null} below three
     */
    public record Assessor(
            String code,
            int marks,
            int trainees,
            int shared,
            @Nullable Double difference,
            @Nullable Double lower,
            @Nullable Double upper) {}

    /**
     * Marks of the same item of the same case by two assessors.
     *
     * @param exact share of equal points
     * @param withinOne share of equal or neighbouring levels; {@code null} where points are no levels
     */
    public record Agreement(
            int comparisons, double exact, @Nullable Double withinOne) {}

    /**
     * What a trainee without a mark would need.
     *
     * @param plans the fewest minutes first; empty if nothing tried reaches the wish
     */
    public record Planner(double wish, double minutesEach, List<Precision.More> plans, Precision.Study study) {
        public Planner {
            plans = List.copyOf(plans);
        }
    }
}
