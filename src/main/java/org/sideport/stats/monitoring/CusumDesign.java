package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.List;

/**
 * The two-sided tabular CUSUM of measured values (Page 1954, Biometrika 41:100; NIST/SEMATECH e-Handbook 6.3.2.3), in SD of
 * the baseline: C⁺ = max(0, C⁺ + z − k), C⁻ = max(0, C⁻ − z − k), a signal at C ≥ h. With a head start both begin at it (fast
 * initial response, Lucas & Crosier 1982, Technometrics 24:199, who take h/2).
 *
 * @param k reference value in SD, 0 or more; half the shift to be found
 * @param h limit in SD, above 0
 * @param headStart in SD, 0 up to below h
 */
public record CusumDesign(double k, double h, double headStart) {

    public CusumDesign {
        if (!(k >= 0 && Double.isFinite(k))) {
            throw new IllegalArgumentException("k is " + k + ", but cannot be below 0");
        }
        Check.positive("h", h);
        if (!(headStart >= 0 && headStart < h)) {
            throw new IllegalArgumentException("a head start of " + headStart + " has to lie from 0 to below h " + h);
        }
    }

    /**
     * @param restart with {@link Restart#RESTART} both sums go back to the head start after a signal
     */
    public ValueChart chart(ValueSeries series, Baseline baseline, Restart restart) {
        List<ChartPoint> upper = new ArrayList<>();
        List<ChartPoint> lower = new ArrayList<>();
        double up = headStart;
        double down = headStart;
        for (int i = 0; i < series.size(); i++) {
            double value = series.values().get(i);
            double z = (value - baseline.mean()) / baseline.sd();
            up = Math.max(0, up + z - k);
            down = Math.max(0, down - z - k);
            boolean high = up >= h - BinaryDesign.TOLERANCE;
            boolean low = down >= h - BinaryDesign.TOLERANCE;
            long number = series.first() + i;
            upper.add(new ChartPoint(number, value, up, null, h, high ? SignalKind.HIGH : null, ""));
            lower.add(new ChartPoint(number, value, down, null, h, low ? SignalKind.LOW : null, ""));
            if ((high || low) && restart == Restart.STOP) {
                break;
            }
            if ((high || low) && restart == Restart.RESTART) {
                up = headStart;
                down = headStart;
            }
        }
        List<String> warnings = new ArrayList<>(series.warnings());
        warnings.addAll(baseline.warnings());
        return new ValueChart(
                "two-sided CUSUM, k " + k + ", h " + h + (headStart > 0 ? ", head start " + headStart : ""),
                baseline,
                upper,
                lower,
                warnings);
    }
}
