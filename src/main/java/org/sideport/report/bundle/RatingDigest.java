package org.sideport.report.bundle;

import org.jspecify.annotations.Nullable;
import org.sideport.model.Rating;
import org.sideport.model.Sha256;
import org.sideport.rubric.RatingWriter;

/**
 * The digest that a rating carries in a bundle: SHA-256 (FIPS 180-4) over its marks as {@link RatingWriter} writes them, the
 * very text of its rubric, when it was signed and why it amends another. It shows that nothing was altered on the way; who
 * made the bundle it does not prove.
 */
public final class RatingDigest {

    private RatingDigest() {}

    /** @return 64 lower-case hex digits */
    public static String of(Rating rating, String rubricJson, @Nullable String signedAt, @Nullable String reason) {
        return Sha256.ofParts(
                RatingWriter.write(rating), rubricJson, signedAt == null ? "" : signedAt, reason == null ? "" : reason);
    }
}
