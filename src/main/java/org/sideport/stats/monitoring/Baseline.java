package org.sideport.stats.monitoring;

import java.util.List;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * The level and spread that a chart holds the cases against. From the first m cases the mean is theirs and the SD is the
 * mean moving range of two divided by d2 = 1.128 (the three-decimal value of the published tables, such as ISO 7870-2 and the
 * NIST/SEMATECH e-Handbook 6.3.2.2; exactly 2/√π = 1.12838).
 *
 * @param mean unit of the values
 * @param sd above 0, unit of the values
 * @param cases how many of the first cases it was taken from; 0 if it was given
 */
public record Baseline(double mean, double sd, int cases) {

    /** Expected range of two normal values of SD 1. */
    public static final double D2 = 1.128;

    /** From this many cases on a baseline's own error hardly matters. */
    private static final int ENOUGH = 100;

    public Baseline {
        if (!Double.isFinite(mean)) {
            throw new IllegalArgumentException("mean " + mean);
        }
        Check.positive("the SD", sd);
    }

    /** Known beforehand. */
    public static Baseline given(double mean, double sd) {
        return new Baseline(mean, sd, 0);
    }

    /** @param cases the first so many, at least 2 and at most all */
    public static Outcome<Baseline> ofFirst(ValueSeries series, int cases) {
        if (cases < 2) {
            throw new IllegalArgumentException("a baseline of " + cases + " cases");
        }
        return series.atLeast(cases).flatMap(enough -> {
            double sum = enough.values().get(0);
            double ranges = 0;
            for (int i = 1; i < cases; i++) {
                sum += enough.values().get(i);
                ranges += Math.abs(enough.values().get(i) - enough.values().get(i - 1));
            }
            double sd = ranges / (cases - 1) / D2;
            if (!(sd > 0)) {
                return Outcome.refused(
                        Refusal.Reason.NO_VARIATION,
                        "the first " + cases + " cases all have the value "
                                + enough.values().get(0),
                        "take more cases for the baseline, or give mean and SD");
            }
            return Outcome.of(new Baseline(sum / cases, sd, cases));
        });
    }

    /** What a reader has to know of limits that rest on a few cases. */
    List<String> warnings() {
        return cases == 0 || cases >= ENOUGH
                ? List.of()
                : List.of("mean and SD come from " + cases
                        + " cases only; the run lengths hold for a known mean and SD, and with fewer than about "
                        + ENOUGH
                        + " cases false signals are more frequent than they say");
    }
}
