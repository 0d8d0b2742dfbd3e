package org.sideport.report.workbook;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the unit's figures say, as the screens and the command line show them: the workbook only writes them out. Shares are
 * 0 to 1, times microseconds; {@code null} is unknown.
 *
 * @param minutesEach of one assessor for one case, for planning
 * @param wish coefficient Φ to plan for
 * @param shares case by case, what the means rest on
 * @param learning one for each trainee and phase that was timed
 * @param curves along the fitted curve of whole operations
 */
public record UnitFigures(
        double minutesEach,
        double wish,
        List<CaseShare> shares,
        List<Competency> competencies,
        List<Assessor> assessors,
        List<Reliability> reliability,
        List<Component> components,
        List<Planned> planned,
        List<Learning> learning,
        List<CurvePlace> curves,
        List<Complications> complications,
        List<Agreed> standards) {

    /** The competency of a figure over all items. */
    public static final String WHOLE = "whole";

    /** Nothing marked, timed or agreed. */
    public static final UnitFigures NONE = new UnitFigures(
            15, 0.8, List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of(),
            List.of());

    public UnitFigures {
        shares = List.copyOf(shares);
        competencies = List.copyOf(competencies);
        assessors = List.copyOf(assessors);
        reliability = List.copyOf(reliability);
        components = List.copyOf(components);
        planned = List.copyOf(planned);
        learning = List.copyOf(learning);
        curves = List.copyOf(curves);
        complications = List.copyOf(complications);
        standards = List.copyOf(standards);
    }

    /**
     * A rubric, one of its competencies and a trainee.
     *
     * @param number ties shares to competencies, so that formulas compare numbers, never texts
     * @param competency id of the rubric's domain, or {@link #WHOLE}
     */
    public record Group(int number, String rubric, String version, String competency, String title, String trainee) {}

    /**
     * @param number 1 for the first marked case of the group
     * @param fromEnd 1 for the latest
     * @param share of the applicable maximum, mean over the case's assessors
     */
    public record CaseShare(
            Group group, String caseCode, LocalDate date, int number, int fromEnd, double share, int assessors) {}

    /**
     * @param cases of the trainee, marked or not
     * @param n marked
     * @param recent how many of the latest are in the mean
     * @param lower limit of the mean by Student's t; {@code null} below three cases, or if all are equal
     * @param standard agreed for the whole rubric; {@code null} for a single competency
     * @param reaching how many of the recent cases reach the standard
     */
    public record Competency(
            Group group,
            int cases,
            int n,
            int recent,
            @Nullable Double mean,
            @Nullable Double lowest,
            @Nullable Double highest,
            @Nullable Double sd,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable LocalDate lastDate,
            @Nullable Double standard,
            @Nullable Integer reaching) {}

    /**
     * @param difference own share less the others' of the same cases
     * @param severity logits, above 0 for severe
     * @param markings that the severity rests on
     * @param note why there is no severity; else what the method warns of
     * @param comparisons of the whole unit: marks of the same item of the same case by two assessors
     */
    public record Assessor(
            String rubric,
            String version,
            String code,
            int marks,
            int trainees,
            int shared,
            @Nullable Double difference,
            @Nullable Double differenceLower,
            @Nullable Double differenceUpper,
            @Nullable Double severity,
            @Nullable Double severityError,
            @Nullable Double severityLower,
            @Nullable Double severityUpper,
            @Nullable Integer markings,
            @Nullable Double infit,
            @Nullable Double outfit,
            @Nullable Double fairAverage,
            @Nullable Double meanLevel,
            int comparisons,
            @Nullable Double exact,
            @Nullable Double withinOne,
            String note) {}

    /**
     * How sure the mean of all marks of a trainee is.
     *
     * @param universe variance between trainees
     * @param error absolute, of this trainee's mean
     * @param lower the mean less 1.96 standard errors of measurement, not below 0
     * @param note why nothing can be said
     */
    public record Reliability(
            String rubric,
            String version,
            String trainee,
            int cases,
            int marks,
            int assessors,
            @Nullable Double mean,
            @Nullable Double universe,
            @Nullable Double relativeError,
            @Nullable Double error,
            @Nullable Double g,
            @Nullable Double phi,
            @Nullable Double sem,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double standard,
            @Nullable Double distance,
            String note) {}

    /** @param share of the variance of a single mark */
    public record Component(
            String rubric,
            String version,
            String design,
            String method,
            int trainees,
            int cases,
            int assessors,
            int marks,
            String effect,
            double variance,
            @Nullable Double standardError,
            double share,
            String note) {}

    /**
     * What an assessment of so many cases would reach.
     *
     * @param each assessors for each case; all of the unit's take turns
     * @param assessors of the unit
     * @param ofTrainees variance between trainees
     * @param ofCases variance that averages over cases
     * @param ofAssessors variance that averages over assessors
     * @param ofMarks variance that averages over single marks
     */
    public record Planned(
            String rubric,
            String version,
            int cases,
            int each,
            int assessors,
            double ofTrainees,
            double ofCases,
            double ofAssessors,
            double ofMarks,
            double phi,
            double sem) {}

    /**
     * Fitted times in microseconds.
     *
     * @param n cases with a sure time
     * @param unsure cases whose time is a lower limit only
     * @param model name of the curve; {@code null} if there is none
     * @param change whether the data tell a change with the number of cases from none
     * @param doubling what each doubling of the number of cases multiplies the time by
     * @param ratio geometric mean of the latest cases over that of those before
     * @param note why there is no curve or no comparison
     */
    public record Learning(
            String procedure,
            String trainee,
            String phase,
            String name,
            int n,
            int unsure,
            @Nullable String model,
            @Nullable Boolean change,
            @Nullable CurvePlace first,
            @Nullable CurvePlace last,
            @Nullable Double doubling,
            @Nullable Double doublingLower,
            @Nullable Double doublingUpper,
            @Nullable Integer latest,
            @Nullable Integer earlier,
            @Nullable Double latestUs,
            @Nullable Double earlierUs,
            @Nullable Double ratio,
            @Nullable Double ratioLower,
            @Nullable Double ratioUpper,
            String note) {}

    public record CurvePlace(
            String procedure, String trainee, double caseNumber, double us, double lowerUs, double upperUs) {}

    /**
     * @param cases all of the trainee
     * @param known of which somebody tagged, so that the outcome is known
     * @param events cases with an event that counts
     * @param lower exact binomial limit (Clopper & Pearson)
     * @param unit share over the whole unit
     * @param funnelLower limits of the funnel about that, 95 %
     * @param state of the chart over consecutive cases; why there is none
     * @param statistic of the chart after the last case
     */
    public record Complications(
            String procedure,
            String trainee,
            int cases,
            int known,
            int events,
            String kinds,
            @Nullable Double share,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double unit,
            @Nullable Double funnelLower,
            @Nullable Double funnelUpper,
            @Nullable Double farLower,
            @Nullable Double farUpper,
            @Nullable Double statistic,
            @Nullable Double limit,
            String state) {}

    /**
     * @param trainees with a mean of the latest cases
     * @param reaching of whom the mean reaches it
     * @param cases latest cases of all trainees together
     * @param casesReaching of which the share reaches it
     */
    public record Agreed(
            String rubric,
            String version,
            int number,
            boolean inForce,
            String method,
            double share,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Integer n,
            LocalDate agreedOn,
            String agreedBy,
            String note,
            int trainees,
            int reaching,
            int cases,
            int casesReaching) {}
}
