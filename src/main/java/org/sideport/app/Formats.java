package org.sideport.app;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;

/** Numbers and times as people read them, always of the same width where they stand in columns. */
public final class Formats {

    /** What stands where a number is not known. */
    public static final String UNKNOWN = "–";

    private Formats() {}

    /** {@code 0:01:23.240}, cut to milliseconds. */
    public static String clock(MediaTime time) {
        long millis = time.micros() / 1000;
        return String.format(
                Locale.ROOT,
                "%d:%02d:%02d.%03d",
                millis / 3_600_000,
                millis / 60_000 % 60,
                millis / 1000 % 60,
                millis % 1000);
    }

    /** {@code 1:23} or {@code 1:02:03}: whole seconds, cut. */
    public static String shortClock(MediaTime time) {
        long seconds = time.micros() / 1_000_000;
        return seconds >= 3600
                ? String.format(Locale.ROOT, "%d:%02d:%02d", seconds / 3600, seconds / 60 % 60, seconds % 60)
                : String.format(Locale.ROOT, "%d:%02d", seconds / 60, seconds % 60);
    }

    /** {@code 1:23.2}: a length to a tenth of a second, rounded. */
    public static String length(@Nullable Long micros) {
        if (micros == null) {
            return UNKNOWN;
        }
        long tenths = Math.round(micros / 100_000.0);
        return String.format(Locale.ROOT, "%d:%02d.%d", tenths / 600, tenths / 10 % 60, tenths % 10);
    }

    /** {@code 83 %}; unknown is a dash, never 0. */
    public static String percent(@Nullable Double share) {
        return share == null ? UNKNOWN : String.format(Locale.ROOT, "%.0f %%", share * 100);
    }
}
