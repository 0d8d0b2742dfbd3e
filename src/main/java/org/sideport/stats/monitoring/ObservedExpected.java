package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.List;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;

/**
 * Failures expected and observed, summed case by case (the "variable life-adjusted display" shows Σ(p − X), Lovegrove et
 * al. 1997, Lancet 350:1128): O − E = Σ(X − p), above 0 with more failures than expected. The prediction limits at each
 * case hold the sum with the stated probability if every case fails with its risk: exact quantiles of a sum of independent
 * unequal yes/no outcomes. They hold for one case looked at alone, not for the whole line, so this is a display and no
 * test: do not count crossings as signals.
 *
 * @param points the statistic O − E, its limits, no signals
 * @param expected Σp
 * @param observed ΣX
 * @param limits of the final O − E
 * @param excessProbability P(as many failures as observed or more) at the last case, if the risks are right
 * @param warnings sentences, empty if there is nothing to warn of
 */
public record ObservedExpected(
        List<ChartPoint> points,
        double expected,
        int observed,
        Interval limits,
        double excessProbability,
        List<String> warnings) {

    public ObservedExpected {
        points = List.copyOf(points);
        warnings = List.copyOf(warnings);
    }

    /** Expected less observed failures, the sign of the life-adjusted display: above 0 is better than expected. */
    public double saved() {
        return expected - observed;
    }

    /**
     * Quadratic in the number of cases.
     *
     * @param p0 the risk of each case where the series has none
     * @param level of the prediction limits, for instance 0.95
     */
    public static Outcome<ObservedExpected> of(BinarySeries series, double p0, double level) {
        Check.rate("p0", p0);
        Check.rate("level", level);
        double[] mass = new double[series.size() + 1];
        mass[0] = 1;
        double expected = 0;
        int observed = 0;
        List<ChartPoint> points = new ArrayList<>();
        for (int i = 0; i < series.size(); i++) {
            double risk = series.isRiskAdjusted() ? series.risks().get(i) : p0;
            for (int f = i + 1; f >= 0; f--) {
                mass[f] = mass[f] * (1 - risk) + (f > 0 ? mass[f - 1] * risk : 0);
            }
            expected += risk;
            boolean failure = series.failures().get(i);
            observed += failure ? 1 : 0;
            points.add(new ChartPoint(
                    series.first() + i,
                    failure ? 1 : 0,
                    observed - expected,
                    quantile(mass, (1 - level) / 2) - expected,
                    quantile(mass, (1 + level) / 2) - expected,
                    null,
                    ""));
        }
        double excess = 0;
        for (int f = mass.length - 1; f >= observed; f--) {
            excess += mass[f];
        }
        Interval limits = new Interval(
                quantile(mass, (1 - level) / 2) - expected, quantile(mass, (1 + level) / 2) - expected, level);
        List<String> warnings = new ArrayList<>(series.warnings());
        if (expected < 5) {
            warnings.add("only " + String.format(java.util.Locale.ROOT, "%.2f", expected) + " failures are expected in "
                    + series.size() + " cases, so the line can hardly show anything");
        }
        return Outcome.of(new ObservedExpected(points, expected, observed, limits, Math.min(1, excess), warnings));
    }

    /** The smallest number of failures with P(fewer or as many) ≥ p. */
    private static int quantile(double[] mass, double p) {
        double sum = 0;
        for (int f = 0; f < mass.length; f++) {
            sum += mass[f];
            if (sum >= p - 1e-12) {
                return f;
            }
        }
        return mass.length - 1;
    }
}
