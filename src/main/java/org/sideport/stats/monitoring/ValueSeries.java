package org.sideport.stats.monitoring;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Measured values of consecutive cases, in order, none missing.
 *
 * @param first number of the first case; the others follow one by one
 * @param values finite, one a case, in order
 * @param warnings what a reader has to know of the series
 */
public record ValueSeries(long first, List<Double> values, List<String> warnings) {

    public ValueSeries {
        values = List.copyOf(values);
        warnings = List.copyOf(warnings);
    }

    /** Cases 1, 2, 3 … */
    public static ValueSeries of(double... values) {
        return new ValueSeries(1, java.util.Arrays.stream(values).boxed().toList(), List.of());
    }

    /**
     * Checks and orders the rows of a log; refuses a series that is not every case in turn, see {@link CaseOrder}.
     *
     * @param values {@code null} where the value is unknown, which is a gap
     */
    public static Outcome<ValueSeries> of(long[] caseNumbers, List<@Nullable Double> values) {
        boolean[] known = new boolean[values.size()];
        for (int i = 0; i < known.length; i++) {
            Double value = values.get(i);
            known[i] = value != null && Double.isFinite(value);
        }
        Outcome<CaseOrder> order = CaseOrder.of(caseNumbers, known);
        return order.map(found -> new ValueSeries(
                found.first(),
                found.rows().stream()
                        .map(row -> java.util.Objects.requireNonNull(values.get(row)))
                        .toList(),
                found.warnings()));
    }

    public int size() {
        return values.size();
    }

    /** Refuses a series too short for a chart. */
    Outcome<ValueSeries> atLeast(int cases) {
        return size() >= cases
                ? Outcome.of(this)
                : Outcome.refused(
                        Refusal.Reason.TOO_FEW,
                        "there are " + size() + " cases, the chart needs " + cases,
                        "wait for more cases");
    }
}
