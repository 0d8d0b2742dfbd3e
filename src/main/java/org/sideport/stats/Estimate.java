package org.sideport.stats;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A number that a decision may rest on, with what is needed to judge it.
 *
 * @param value finite
 * @param se standard error in the unit of the value; {@code null} where the method gives none
 * @param limits {@code null} where the method gives none
 * @param n what the number rests on; the method's text says what is counted (subjects, pairs, cases …)
 * @param method name of the method, formula or convention, for the reader of a report
 * @param warnings sentences for people, in plain words; empty if there is nothing to warn of
 */
public record Estimate(
        double value, @Nullable Double se, @Nullable Interval limits, int n, String method, List<String> warnings) {

    public Estimate {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(method + ": " + value + " is no estimate; refuse instead");
        }
        warnings = List.copyOf(warnings);
    }

    public Estimate withWarnings(List<String> more) {
        return new Estimate(value, se, limits, n, method, more);
    }
}
