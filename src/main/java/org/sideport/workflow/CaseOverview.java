package org.sideport.workflow;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.RatingState;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.Score;

/**
 * A case at a glance.
 *
 * @param mediaFound false if it has a recording of which a file is not where it was
 */
public record CaseOverview(
        SurgicalCase surgicalCase, boolean mediaFound, List<String> annotators, List<RatingOverview> ratings) {

    /**
     * @param signedAt ISO instant, or {@code null} for a draft
     * @param reason why it amends another, or {@code null}
     * @param digest over what was signed, or {@code null} for a draft
     */
    public record RatingOverview(
            long id,
            String rubric,
            String rubricVersion,
            String assessor,
            boolean self,
            boolean blind,
            RatingState state,
            @Nullable String signedAt,
            @Nullable Long amends,
            @Nullable String reason,
            @Nullable String digest,
            Score score) {}

    public CaseOverview {
        annotators = List.copyOf(annotators);
        ratings = List.copyOf(ratings);
    }
}
