package org.sideport.stats.agreement;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal.Reason;
import org.sideport.stats.resample.Bootstrap;

/**
 * Krippendorff's alpha for any number of raters and missing scores: 1 − observed ⁄ expected disagreement over coincidences
 * (Krippendorff 2011, Computing Krippendorff's Alpha-Reliability, section D). The limits are bias-corrected bootstrap
 * limits from resampling units (subjects) with all their scores; Krippendorff's own scheme resamples pairs of scores and
 * takes them for independent, which they are not.
 */
public final class KrippendorffAlpha {

    private KrippendorffAlpha() {}

    /**
     * @param values the distinct values that occur, ascending
     * @param counts [unit][value]
     * @return refused where fewer than 2 units have two scores, where all pairable scores are the same, and for a ratio
     *     scale with negative values
     */
    public static Outcome<Estimate> of(double[] values, int[][] counts, MeasurementLevel level, Bootstrap bootstrap) {
        int[][] units = Arrays.stream(counts)
                .filter(row -> Arrays.stream(row).sum() > 1)
                .toArray(int[][]::new);
        if (units.length < 2) {
            return Outcome.refused(
                    Reason.TOO_FEW,
                    units.length == 1 ? "only 1 subject has two scores" : "no subject has two scores",
                    "let more subjects be scored twice");
        }
        if (level == MeasurementLevel.RATIO && values[0] < 0) {
            return Outcome.refused(
                    Reason.UNSUITABLE_DATA,
                    "there is a negative value, and a ratio scale has none",
                    "take the interval level");
        }
        int[] all = IntStream.range(0, units.length).toArray();
        double alpha = alpha(values, units, level, all);
        if (Double.isNaN(alpha)) {
            return Outcome.refused(
                    Reason.NO_VARIATION,
                    "all scores that can be paired are the same",
                    "read the share of equal scores instead");
        }
        @Nullable
        Interval limits =
                bootstrap.bca(units.length, i -> alpha(values, units, level, i)) instanceof Outcome.Found<Interval> f
                        ? f.value()
                        : null;
        return Outcome.of(new Estimate(
                alpha,
                null,
                limits,
                units.length,
                "Krippendorff's alpha, " + level.name().toLowerCase(Locale.ROOT)
                        + " level; limits by resampling subjects",
                units.length < 30
                        ? List.of("There are only " + units.length + " subjects: the limits are rough.")
                        : List.of()));
    }

    /** NaN where the drawn units hold one value only. */
    private static double alpha(double[] values, int[][] units, MeasurementLevel level, int[] drawn) {
        int q = values.length;
        double[][] coincidences = new double[q][q];
        double[] totals = new double[q];
        double n = 0;
        for (int u : drawn) {
            int[] unit = units[u];
            int m = Arrays.stream(unit).sum();
            n += m;
            for (int c = 0; c < q; c++) {
                if (unit[c] > 0) {
                    totals[c] += unit[c];
                    for (int k = 0; k < q; k++) {
                        coincidences[c][k] += (double) unit[c] * (unit[k] - (c == k ? 1 : 0)) / (m - 1);
                    }
                }
            }
        }
        double[][] difference = level.squaredDifferences(values, totals);
        double observed = 0;
        double expected = 0;
        for (int c = 0; c < q; c++) {
            for (int k = 0; k < q; k++) {
                observed += coincidences[c][k] * difference[c][k];
                expected += totals[c] * totals[k] * difference[c][k];
            }
        }
        return expected == 0 ? Double.NaN : 1 - (n - 1) * observed / expected;
    }
}
