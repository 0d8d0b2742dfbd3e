package org.sideport.stats.monitoring;

import java.util.Locale;

/** Parameters that make sense. */
final class Check {

    private Check() {}

    static void rate(String name, double rate) {
        if (!(rate > 0 && rate < 1)) {
            throw new IllegalArgumentException(name + " is " + text(rate) + ", but a rate lies between 0 and 1");
        }
    }

    static void positive(String name, double value) {
        if (!(value > 0 && Double.isFinite(value))) {
            throw new IllegalArgumentException(name + " is " + text(value) + ", but has to be above 0");
        }
    }

    static void ordered(double lower, double upper) {
        if (!(lower < upper)) {
            throw new IllegalArgumentException(
                    "the acceptable rate " + text(lower) + " has to be below the unacceptable rate " + text(upper));
        }
    }

    private static String text(double value) {
        return String.format(Locale.ROOT, "%s", value);
    }
}
