package org.sideport.model;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Marks of a case that people agreed upon. Never changed; a later one of the same case, rubric and purpose replaces it.
 *
 * @param stands id of the signed rating that stands as it is, or {@code null} if the marks were agreed anew
 * @param agreedBy codes of those who agreed, as written
 * @param reason why
 * @param scores of all items that were decided
 */
public record AgreedMark(
        String id,
        String caseCode,
        String rubric,
        String rubricVersion,
        Purpose purpose,
        @Nullable Long stands,
        String agreedBy,
        String reason,
        Instant agreedAt,
        List<ItemScore> scores) {

    public enum Purpose {
        /** Settles marks that differ too much. */
        ADJUDICATION,
        /** What assessors are compared with when they practise. */
        REFERENCE;

        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    public AgreedMark {
        scores = List.copyOf(scores);
    }

    /** In the shape of a rating, to be scored; its assessor is who agreed. */
    public Rating asRating() {
        return new Rating(rubric, rubricVersion, agreedBy, false, false, scores, reason);
    }
}
