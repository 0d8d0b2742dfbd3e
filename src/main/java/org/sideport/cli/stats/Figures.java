package org.sideport.cli.stats;

import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;

/** Numbers as people and machines read them. */
final class Figures {

    private Figures() {}

    /** Three decimals, never {@code -0.000}; a dash where there is no number. */
    static String plain(@Nullable Double value) {
        return plain(value, 3);
    }

    static String plain(@Nullable Double value, int decimals) {
        if (value == null || value.isNaN()) {
            return "–";
        }
        if (value.isInfinite()) {
            return value > 0 ? "∞" : "−∞";
        }
        String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
        if (text.startsWith("-") && text.chars().allMatch(c -> c == '-' || c == '.' || c == '0')) {
            text = text.substring(1);
        }
        return text.replace('-', '−');
    }

    static String percent(double share) {
        return plain(100 * share, 1) + " %";
    }

    /** {@code 0.290 (95 % 0.019 to 0.761)}, or the bare number. */
    static String of(Estimate estimate) {
        Interval limits = estimate.limits();
        return plain(estimate.value()) + (limits == null ? "" : " (" + limits(limits) + ")");
    }

    static String limits(Interval limits) {
        return plain(100 * limits.level(), limits.level() * 100 % 1 == 0 ? 0 : 1) + " % " + plain(limits.lower())
                + " to " + plain(limits.upper());
    }

    static Map<String, @Nullable Object> json(Estimate estimate) {
        Interval limits = estimate.limits();
        return Json.object(
                "estimate",
                estimate.value(),
                "se",
                estimate.se(),
                "lower",
                limits == null ? null : finite(limits.lower()),
                "upper",
                limits == null ? null : finite(limits.upper()),
                "level",
                limits == null ? null : limits.level(),
                "n",
                estimate.n(),
                "method",
                estimate.method(),
                "warnings",
                estimate.warnings());
    }

    /** JSON knows no infinity: unknown is {@code null}. */
    static @Nullable Double finite(double value) {
        return Double.isFinite(value) ? (Double) value : null;
    }
}
