package org.sideport.workflow;

import java.time.Instant;
import java.time.LocalDate;
import org.sideport.model.Rating;
import org.sideport.rubric.Score;

/**
 * A signed mark in force that an assessor gave: never a self-assessment, nor practice.
 *
 * @param rating without comments and evidence
 * @param share of the applicable maximum, 0 to 1
 */
public record SignedMark(
        long ratingId,
        String caseCode,
        String trainee,
        LocalDate date,
        Instant signedAt,
        Rating rating,
        Score score,
        double share) {

    public String assessor() {
        return rating.assessor();
    }

    public boolean blind() {
        return rating.blind();
    }
}
