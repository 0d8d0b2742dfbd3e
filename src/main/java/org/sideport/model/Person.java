package org.sideport.model;

import java.time.Instant;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Someone who signs in to a workspace, by a code and never by a name.
 *
 * @param active false if blocked
 * @param mustChange true if the password is one that somebody else knows
 * @param lockedUntil no sign-in before, after wrong passwords; {@code null} if not locked
 */
public record Person(
        String code,
        boolean active,
        Set<Role> roles,
        Instant addedAt,
        boolean mustChange,
        @Nullable Instant lockedUntil) {

    public Person {
        roles = Set.copyOf(roles);
    }

    /** True if the person may do a director's work now. */
    public boolean isActiveDirector() {
        return active && roles.contains(Role.DIRECTOR);
    }

    /** As whom this person asks the store. */
    public Caller.Person caller() {
        return new Caller.Person(code, roles);
    }
}
