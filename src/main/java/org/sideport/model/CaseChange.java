package org.sideport.model;

import java.time.Instant;

/**
 * One change of a case sheet, kept for good.
 *
 * @param by code of the person who made it
 * @param field what was changed: a descriptor's id, or {@code trainee}, {@code date}, {@code consent}, {@code review_by}
 * @param before what it was; empty if there was nothing
 * @param after what it is since; empty if it was taken away
 */
public record CaseChange(Instant at, String by, String field, String before, String after) {}
