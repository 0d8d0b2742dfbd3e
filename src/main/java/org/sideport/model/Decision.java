package org.sideport.model;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/**
 * What a panel decided about a trainee, in its own words. The program only keeps it.
 *
 * @param id made by the program
 * @param decidedBy codes of the panel, at least one
 * @param shown the figures that the panel had before it, as JSON
 * @param shownDigest SHA-256 of {@code shown}, hexadecimal
 * @param recordedBy code of who wrote it down; empty where nobody signs in
 */
public record Decision(
        String id,
        String trainee,
        String rubric,
        String rubricVersion,
        String wording,
        LocalDate decidedOn,
        List<String> decidedBy,
        String shown,
        String shownDigest,
        String recordedBy,
        Instant recordedAt) {

    public Decision {
        decidedBy = List.copyOf(decidedBy);
    }
}
