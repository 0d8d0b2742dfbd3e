package org.sideport.model;

import java.time.Instant;

/**
 * A case that a consultant named as showing how a procedure is done.
 *
 * @param annotator whose tags of it count
 * @param title what it shows, in a few words
 * @param why why it was chosen; may be empty
 * @param namedBy code of the person who named it
 * @param usual true for the one that is offered first
 */
public record Exemplar(
        String caseCode,
        String annotator,
        String procedure,
        String title,
        String why,
        String namedBy,
        Instant namedAt,
        boolean usual) {}
