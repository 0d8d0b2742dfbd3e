package org.sideport.store;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Who signs in to a shared database. What is missing the driver looks for itself: the name in the URL or the system's
 * account, the password in the file {@code ~/.pgpass}.
 *
 * @param user a person's code, or {@code null}
 * @param password {@code null} if it stands elsewhere
 */
public record DatabaseLogin(@Nullable String user, @Nullable String password) {

    /** By {@code PGUSER} and {@code PGPASSWORD}, as every program of PostgreSQL takes them. */
    public static DatabaseLogin of(Map<String, String> environment) {
        return new DatabaseLogin(filled(environment.get("PGUSER")), filled(environment.get("PGPASSWORD")));
    }

    private static @Nullable String filled(@Nullable String value) {
        return value == null || value.isEmpty() ? null : value;
    }

    @Override
    public String toString() {
        return "login " + (user == null ? "of the system's account" : user);
    }
}
