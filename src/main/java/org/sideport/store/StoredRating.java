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
        @Nullable String reason) {}
