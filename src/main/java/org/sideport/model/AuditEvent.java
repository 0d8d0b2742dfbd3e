package org.sideport.model;

/**
 * One line of the audit trail.
 *
 * @param at ISO 8601 in UTC by the computer's clock, which may have been wrong: lines are in the order of their ids
 * @param who code of the person; empty where nobody signs in
 * @param deed what was done, such as {@code rating.sign}
 * @param subject what it was done to, such as a case's code
 * @param before digest or short text of the state before; empty if there was none
 * @param after digest or short text of the state after; empty if there is none
 * @param previous digest of the line before; empty for the first
 * @param digest over all of the above, in hexadecimal
 */
public record AuditEvent(
        long id,
        String at,
        String who,
        String deed,
        String subject,
        String before,
        String after,
        String previous,
        String digest) {}
