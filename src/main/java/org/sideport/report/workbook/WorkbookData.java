package org.sideport.report.workbook;

import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.SummaryRow;

/**
 * Everything that goes into a competency workbook. Ratings, taggings and timings may belong to cases that are not
 * listed: their rows then have no trainee and no date, and stay out of the cohort.
 *
 * @param procedures vocabularies by which phases and events are named; ids without one are written as they are
 * @param timings per case and annotator; by phase rather than by step for medians in the cohort
 * @param summaryGroup what the groups of {@code summary} are, such as {@code Trainee}; heads their column
 * @param recentCases how many of a trainee's latest assessed cases make the recent mean; at least 1
 * @param programVersion such as {@code 0.1.0}
 * @param figures what was computed of all of it
 */
public record WorkbookData(
        List<SurgicalCase> cases,
        List<CaseRating> ratings,
        List<CaseTagging> taggings,
        List<CaseTiming> timings,
        String summaryGroup,
        List<SummaryRow> summary,
        List<Procedure> procedures,
        int recentCases,
        OffsetDateTime created,
        String programVersion,
        UnitFigures figures) {

    /**
     * Six different cases bring the pooled reliability of technical-skill ratings above 0.80 if all other variance
     * averages down: 0.442 / (0.442 + 0.558 / 6) = 0.826, with the person variance of Andersen et al. 2021, doi
     * 10.1097/ACM.0000000000004150.
     */
    public static final int USUAL_RECENT_CASES = 6;

    /**
     * @param signedAt {@code null} while it is a draft
     * @param amendmentReason why an earlier rating was superseded by this one; empty for a first rating
     * @param practice whether it was practice and counts for no trainee
     */
    public record CaseRating(
            String caseCode,
            Rating rating,
            Rubric rubric,
            RatingState state,
            @Nullable OffsetDateTime signedAt,
            String amendmentReason,
            boolean practice) {

        /** One that is no practice. */
        public CaseRating(
                String caseCode,
                Rating rating,
                Rubric rubric,
                RatingState state,
                @Nullable OffsetDateTime signedAt,
                String amendmentReason) {
            this(caseCode, rating, rubric, state, signedAt, amendmentReason, false);
        }
    }

    /** @param recordingEnd where an open last span ends; {@code null} if that is not known */
    public record CaseTagging(
            String caseCode,
            String annotator,
            Tagging tagging,
            @Nullable MediaTime recordingEnd) {}

    /** Without figures, for what needs the cases only. */
    public WorkbookData(
            List<SurgicalCase> cases,
            List<CaseRating> ratings,
            List<CaseTagging> taggings,
            List<CaseTiming> timings,
            String summaryGroup,
            List<SummaryRow> summary,
            List<Procedure> procedures,
            int recentCases,
            OffsetDateTime created,
            String programVersion) {
        this(
                cases,
                ratings,
                taggings,
                timings,
                summaryGroup,
                summary,
                procedures,
                recentCases,
                created,
                programVersion,
                UnitFigures.NONE);
    }

    /** The same with what was computed of it. */
    public WorkbookData with(UnitFigures computed) {
        return new WorkbookData(
                cases,
                ratings,
                taggings,
                timings,
                summaryGroup,
                summary,
                procedures,
                recentCases,
                created,
                programVersion,
                computed);
    }

    public WorkbookData {
        cases = List.copyOf(cases);
        ratings = List.copyOf(ratings);
        taggings = List.copyOf(taggings);
        timings = List.copyOf(timings);
        summary = List.copyOf(summary);
        procedures = List.copyOf(procedures);
        if (recentCases < 1) {
            throw new IllegalArgumentException("recent cases: " + recentCases);
        }
    }
}
