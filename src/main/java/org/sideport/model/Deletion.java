package org.sideport.model;

import java.time.LocalDate;

/**
 * A line of the log of deletions, which tells nothing of what was deleted.
 *
 * @param id random
 * @param by code of the person who confirmed it
 */
public record Deletion(String id, LocalDate on, String by, DeletionKind kind) {}
