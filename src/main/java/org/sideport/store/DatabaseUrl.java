package org.sideport.store;

import java.util.Locale;
import java.util.Properties;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.postgresql.Driver;
import org.postgresql.PGProperty;
import org.sideport.model.InputException;

/**
 * Where a shared database is: {@code jdbc:postgresql://host[:port]/name[?setting=value…]}. Without a password, and with TLS
 * unless the host is this machine or the URL says how to do without.
 *
 * @param user the login that the URL names, or {@code null}
 */
record DatabaseUrl(String text, @Nullable String user) {

    private static final String START = "jdbc:postgresql:";
    private static final Set<String> HERE = Set.of("localhost", "127.0.0.1", "::1", "[::1]", "0:0:0:0:0:0:0:1");

    /**
     * @throws InputException if it is no such URL, holds a password, or would send marks over a network without TLS unasked
     */
    static DatabaseUrl parse(String text) {
        String url = text.strip();
        Properties parts = url.startsWith(START) ? Driver.parseURL(url, new Properties()) : null;
        String hosts = parts == null ? null : PGProperty.PG_HOST.getOrDefault(parts);
        if (parts == null || hosts == null || PGProperty.PG_DBNAME.getOrDefault(parts) == null) {
            // the text is not shown: it may hold a password
            throw new InputException(
                    "this is no URL of a PostgreSQL database",
                    null,
                    "write it as jdbc:postgresql://host/name?sslmode=verify-full");
        }
        if (PGProperty.PASSWORD.getOrDefault(parts) != null) {
            throw new InputException(
                    "the URL of the database holds a password",
                    null,
                    "leave it out: give it as PGPASSWORD, in ~/.pgpass, or when asked");
        }
        if (PGProperty.SSL_MODE.getOrDefault(parts) == null && PGProperty.SSL.getOrDefault(parts) == null) {
            for (String host : hosts.split(",")) {
                if (!HERE.contains(host.toLowerCase(Locale.ROOT))) {
                    throw new InputException(
                            "the database on " + host + " would be reached without checked encryption",
                            null,
                            "add sslmode=verify-full to its URL (or, on a line that nobody else can read,"
                                    + " sslmode=disable)");
                }
            }
        }
        return new DatabaseUrl(url, PGProperty.USER.getOrDefault(parts));
    }

    @Override
    public String toString() {
        int settings = text.indexOf('?');
        return settings < 0 ? text : text.substring(0, settings);
    }
}
