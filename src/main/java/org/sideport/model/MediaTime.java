package org.sideport.model;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A point on, or a length of, a recording's timeline.
 *
 * @param micros microseconds from the first displayed frame of the recording; never negative
 */
public record MediaTime(long micros) implements Comparable<MediaTime> {

    public static final MediaTime ZERO = new MediaTime(0);

    private static final Pattern CLOCK = Pattern.compile("(?:(\\d+):)?(\\d{1,2}):(\\d{1,2}(?:[.,]\\d+)?)");
    private static final Pattern SECONDS = Pattern.compile("\\d+(?:[.,]\\d+)?|[.,]\\d+");
    private static final BigDecimal MILLION = BigDecimal.valueOf(1_000_000);
    /** A year of video: anything longer is a typing error, and far from overflow. */
    private static final BigDecimal LONGEST = BigDecimal.valueOf(366L * 86_400);

    public MediaTime {
        if (micros < 0) {
            throw new IllegalArgumentException("a media time cannot be negative: " + micros + " us");
        }
    }

    public static MediaTime ofMicros(long micros) {
        return new MediaTime(micros);
    }

    public static MediaTime ofSeconds(double seconds) {
        return new MediaTime(Math.round(seconds * 1e6));
    }

    /**
     * Reads seconds ({@code 83.24}) or a clock time ({@code 1:23.24}, {@code 0:01:23.240}) exactly, rounding half up to
     * a microsecond beyond six decimals. A decimal comma is taken too.
     *
     * @throws InputException if the text is neither
     */
    public static MediaTime parse(String text) {
        String trimmed = text.trim();
        BigDecimal seconds;
        Matcher clock = CLOCK.matcher(trimmed);
        if (clock.matches()) {
            BigDecimal rest = new BigDecimal(clock.group(3).replace(',', '.'));
            long hours = clock.group(1) == null ? 0 : parseHours(clock.group(1), text);
            long minutes = Long.parseLong(clock.group(2));
            if (rest.compareTo(BigDecimal.valueOf(60)) >= 0 || (clock.group(1) != null && minutes >= 60)) {
                throw notATime(text);
            }
            seconds = rest.add(BigDecimal.valueOf(hours * 3600 + minutes * 60));
        } else if (SECONDS.matcher(trimmed).matches()) {
            seconds = new BigDecimal(trimmed.replace(',', '.'));
        } else {
            throw notATime(text);
        }
        if (seconds.compareTo(LONGEST) > 0) {
            throw notATime(text);
        }
        return new MediaTime(
                seconds.multiply(MILLION).setScale(0, RoundingMode.HALF_UP).longValueExact());
    }

    private static long parseHours(String digits, String text) {
        if (digits.length() > 6) {
            throw notATime(text);
        }
        return Long.parseLong(digits);
    }

    private static InputException notATime(String text) {
        return new InputException(
                "\"" + text + "\" is not a time", null, "write seconds (83.24) or h:mm:ss.sss (0:01:23.240)");
    }

    public MediaTime plus(MediaTime other) {
        return new MediaTime(Math.addExact(micros, other.micros));
    }

    /** The length from {@code earlier} to this time; {@code earlier} must not lie after it. */
    public MediaTime minus(MediaTime earlier) {
        return new MediaTime(micros - earlier.micros);
    }

    public boolean isBefore(MediaTime other) {
        return micros < other.micros;
    }

    public boolean isAfter(MediaTime other) {
        return micros > other.micros;
    }

    public double seconds() {
        return micros / 1e6;
    }

    /** Exact decimal seconds without trailing zeros, as written to CSV: {@code 83.24}. */
    public String toSecondsText() {
        BigDecimal seconds = BigDecimal.valueOf(micros, 6).stripTrailingZeros();
        return (seconds.scale() < 0 ? seconds.setScale(0) : seconds).toPlainString();
    }

    /** For people: {@code 1:23.240}, or {@code 1:02:03.240} from one hour on; cut, not rounded, to milliseconds. */
    public String toClockText() {
        long millis = micros / 1000;
        long hours = millis / 3_600_000;
        long minutes = millis / 60_000 % 60;
        long seconds = millis / 1000 % 60;
        return hours > 0
                ? String.format(Locale.ROOT, "%d:%02d:%02d.%03d", hours, minutes, seconds, millis % 1000)
                : String.format(Locale.ROOT, "%d:%02d.%03d", minutes, seconds, millis % 1000);
    }

    @Override
    public int compareTo(MediaTime other) {
        return Long.compare(micros, other.micros);
    }

    @Override
    public String toString() {
        return toClockText();
    }
}
