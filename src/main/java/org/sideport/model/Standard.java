package org.sideport.model;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A standard that people agreed for a version of a rubric. It never changes; a newer one supersedes it.
 *
 * @param id made by the program
 * @param number 1 for the first of this rubric version, and so on
 * @param share least share of the applicable maximum, 0 to 1
 * @param standardError of the share; {@code null} where the method gives none
 * @param lower limit of the share; {@code null} where there is none
 * @param level nominal coverage of the limits, such as 0.95
 * @param n what the method counts: judges, performances; {@code null} for one that was agreed without a computation
 * @param agreedBy codes, at least one
 * @param basis what it rests on, by short names such as {@code round} or {@code borderline}
 * @param warnings what the method warned of
 * @param dataDigest SHA-256 of the data it was computed from; empty for one that was agreed without a computation
 * @param setBy code of who wrote it down; empty where nobody signs in
 * @param supersededBy id of the one that took its place, or {@code null} while it is in force
 */
public record Standard(
        String id,
        String rubric,
        String rubricVersion,
        int number,
        StandardMethod method,
        double share,
        @Nullable Double standardError,
        @Nullable Double lower,
        @Nullable Double upper,
        @Nullable Double level,
        @Nullable Integer n,
        LocalDate agreedOn,
        List<String> agreedBy,
        Map<String, String> basis,
        List<String> warnings,
        String dataDigest,
        String note,
        String setBy,
        Instant setAt,
        @Nullable String supersededBy) {

    public Standard {
        agreedBy = List.copyOf(agreedBy);
        basis = Collections.unmodifiableMap(new LinkedHashMap<>(basis));
        warnings = List.copyOf(warnings);
    }

    public boolean inForce() {
        return supersededBy == null;
    }
}
