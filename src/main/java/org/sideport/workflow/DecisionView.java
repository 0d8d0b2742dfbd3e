package org.sideport.workflow;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Rubric;
import org.sideport.model.Standard;
import org.sideport.stats.Outcome;

/**
 * What a panel has before it when it decides about a trainee. Figures and what they rest on; no verdict.
 *
 * @param last how many of the latest cases were looked at; 0 for all
 * @param marks the signed marks in force, by date of the case
 * @param withheld ids of those that count but are not shown one by one to who asks: of cases that he has still to mark himself
 * @param withOtherVersions marks with other versions of the rubric, which are left out
 * @param cases that the marks are of
 * @param assessors who gave them
 * @param mean over the cases of the mean share over a case's assessors; {@code null} without a mark
 * @param precision refused, in plain words, where the unit's marks are too few to say
 * @param standard in force; {@code null} if none was agreed
 * @param distance mean less standard, as a share; {@code null} without either
 * @param distanceError standard error of that, from the error of measurement and that of the standard as far as they are
 *     known; {@code null} if the former is not
 * @param notes sentences that the panel should read with the figures
 */
public record DecisionView(
        String trainee,
        Rubric rubric,
        int last,
        List<SignedMark> marks,
        Set<Long> withheld,
        int withOtherVersions,
        int cases,
        int assessors,
        @Nullable Double mean,
        Outcome<Precision> precision,
        @Nullable Standard standard,
        @Nullable Double distance,
        @Nullable Double distanceError,
        List<String> notes) {

    /** Stands by every such view. */
    public static final String CAUTION = "The program does not decide. These figures are for a panel that knows the"
            + " trainee, the cases and what the recordings do not show; whether anyone may operate alone is for the"
            + " credentialing body, by local regulations and licensed judgement. Speed is not competence.";

    /** Among the notes where there is no standard. */
    public static final String NO_STANDARD = "No standard has been agreed for this version of the rubric.";

    public DecisionView {
        marks = List.copyOf(marks);
        withheld = Set.copyOf(withheld);
        notes = List.copyOf(notes);
    }

    /** The marks that may be shown one by one. */
    public List<SignedMark> shown() {
        return marks.stream().filter(m -> !withheld.contains(m.ratingId())).toList();
    }

    public long blindMarks() {
        return marks.stream().filter(SignedMark::blind).count();
    }
}
