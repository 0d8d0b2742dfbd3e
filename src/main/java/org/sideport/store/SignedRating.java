package org.sideport.store;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Rating;

/**
 * A signed rating in force, without the text of its rubric.
 *
 * @param rating without comments and evidence
 */
public record SignedRating(
        long id, String caseCode, Rating rating, @Nullable Instant signedAt) {}
