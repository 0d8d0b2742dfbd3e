package org.sideport.cli.standard;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Numbers as people read them. */
final class Words {

    private Words() {}

    static String number(@Nullable Double value, int decimals) {
        return value == null
                ? "–"
                : String.format(Locale.ROOT, "%." + decimals + "f", value).replace('-', '−');
    }

    /** {@code 69.0 %}; unknown is a dash. */
    static String percent(@Nullable Double share) {
        return share == null ? "–" : number(100 * share, 1) + " %";
    }

    /** {@code 95 % limits 60.1 to 70.2 %}; empty without limits. */
    static String limits(@Nullable Double lower, @Nullable Double upper, @Nullable Double level) {
        return lower == null || upper == null || level == null
                ? ""
                : number(100 * level, 0) + " % limits " + number(100 * lower, 1) + " to " + percent(upper);
    }
}
