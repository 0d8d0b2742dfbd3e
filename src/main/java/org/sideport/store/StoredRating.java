package org.sideport.store;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;

/**
 * A rating as the store keeps it.
 *
 * @param rubricJson the very text of the rubric that it was made with
 * @param signedAt {@code null} for a draft
 * @param amends id of the rating that this one replaces, or {@code null}
 * @param reason why it was amended, or {@code null}
 */
public record StoredRating(
        long id,
        String caseCode,
        Rating rating,
        String rubricJson,
        RatingState state,
        Instant changedAt,
        @Nullable Instant signedAt,
        @Nullable Long amends,
        @Nullable String reason) {

    /** The same under another code of its case. */
    StoredRating of(String code) {
        return new StoredRating(id, code, rating, rubricJson, state, changedAt, signedAt, amends, reason);
    }

    /** True if it is by the same assessor, in the same part, against the same rubric in whatever version. */
    public boolean isSameWork(Rating other) {
        return rating.rubric().equals(other.rubric())
                && rating.assessor().equals(other.assessor())
                && rating.self() == other.self();
    }
}
