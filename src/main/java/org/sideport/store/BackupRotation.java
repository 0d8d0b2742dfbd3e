package org.sideport.store;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.IsoFields;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

/**
 * Which backups are kept: the newest of each of the last days, weeks (ISO 8601) and months that have one. Days are those of
 * UTC, so that travelling changes nothing.
 */
record BackupRotation(int days, int weeks, int months) {

    static final BackupRotation USUAL = new BackupRotation(7, 4, 6);

    private static final DateTimeFormatter MONTH = DateTimeFormatter.ofPattern("uuuu-MM", java.util.Locale.ROOT);

    /** Those of {@code made} to keep; the newest is always among them. */
    Set<Instant> keep(List<Instant> made) {
        List<Instant> newestFirst =
                made.stream().distinct().sorted(Comparator.reverseOrder()).toList();
        Set<Instant> kept = new HashSet<>(newestFirst.stream().limit(1).toList());
        kept.addAll(newestOf(newestFirst, days, LocalDate::toString));
        kept.addAll(newestOf(
                newestFirst,
                weeks,
                day -> day.get(IsoFields.WEEK_BASED_YEAR) + "-" + day.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR)));
        kept.addAll(newestOf(newestFirst, months, MONTH::format));
        return kept;
    }

    private static Set<Instant> newestOf(List<Instant> newestFirst, int most, Function<LocalDate, String> span) {
        Map<String, Instant> newest = new HashMap<>();
        for (Instant at : newestFirst) {
            String of = span.apply(at.atZone(ZoneOffset.UTC).toLocalDate());
            if (newest.size() < most || newest.containsKey(of)) {
                newest.putIfAbsent(of, at);
            }
        }
        return new HashSet<>(newest.values());
    }
}
