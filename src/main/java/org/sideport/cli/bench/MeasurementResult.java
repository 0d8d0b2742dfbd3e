package org.sideport.cli.bench;

import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;

/**
 * What a measurement gave.
 *
 * @param seconds our own median
 * @param value figure of our result
 * @param baseline name of what it is compared with
 * @param baselineSeconds its median; {@code null} where there is none
 * @param baselineValue its figure; {@code null} where it has none to compare
 * @param note what else is to be said; {@code null} if nothing
 */
record MeasurementResult(
        Measurement measurement,
        double seconds,
        double value,
        String baseline,
        @Nullable Double baselineSeconds,
        @Nullable Double baselineValue,
        @Nullable String note) {

    private static final double SAME = 1e-6;

    /** How many times longer the baseline takes; {@code null} where it was not measured. */
    @Nullable
    Double ratio() {
        Double other = baselineSeconds;
        return other == null ? null : (Double) (other / seconds);
    }

    /** Whether both came to the same figure; {@code null} where there is nothing to compare. */
    @Nullable
    Boolean sameResult() {
        Double other = baselineValue;
        return other == null ? null : (Boolean) (Math.abs(other - value) <= SAME * (1 + Math.abs(other)));
    }

    String line() {
        StringBuilder line = new StringBuilder(measurement.what()).append(": ").append(time(seconds));
        Double other = baselineSeconds;
        if (other != null) {
            line.append(", ").append(baseline).append(' ').append(time(other));
            line.append(String.format(Locale.ROOT, ", ratio %.2f", other / seconds));
        }
        if (Boolean.TRUE.equals(sameResult())) {
            line.append(", same result");
        } else if (Boolean.FALSE.equals(sameResult())) {
            line.append(", BUT ANOTHER RESULT: ").append(value).append(" and ").append(baselineValue);
        }
        if (note != null) {
            line.append("; ").append(note);
        }
        return line.toString();
    }

    private static String time(double seconds) {
        return String.format(Locale.ROOT, seconds < 1 ? "%.1f ms" : "%.0f ms", seconds * 1000);
    }

    Map<String, @Nullable Object> json() {
        return Json.object(
                "id", measurement.id(),
                "what", measurement.what(),
                "time_us", Math.round(seconds * 1e6),
                "value", value,
                "baseline", baseline,
                "baseline_time_us", micros(baselineSeconds),
                "baseline_value", baselineValue,
                "ratio", ratio(),
                "same_result", sameResult(),
                "note", note);
    }

    private static @Nullable Long micros(@Nullable Double seconds) {
        return seconds == null ? null : (Long) Math.round(seconds * 1e6);
    }
}
