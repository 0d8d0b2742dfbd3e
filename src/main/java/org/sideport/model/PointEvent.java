package org.sideport.model;

import org.jspecify.annotations.Nullable;

/**
 * Something that happened at one moment, such as a complication or a take-over.
 *
 * @param kind id of an event kind of the procedure
 * @param severity {@code null} if not graded
 * @param note free text, possibly empty
 */
public record PointEvent(
        String kind, MediaTime at, @Nullable Severity severity, String note) {}
