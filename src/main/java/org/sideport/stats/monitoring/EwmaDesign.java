package org.sideport.stats.monitoring;

/**
 * The exponentially weighted moving average z = λ x + (1 − λ) z from the baseline's mean on (Roberts 1959, Technometrics
 * 1:239; NIST/SEMATECH e-Handbook 6.3.2.4), a signal beyond mean ± L SD √(λ/(2 − λ) (1 − (1 − λ)^2n)).
 *
 * @param lambda weight of the newest case, above 0, at most 1
 * @param width L, in SD of the statistic
 * @param steady whether the limits are those of late cases from the start: √(λ/(2 − λ)) without the last factor
 */
public record EwmaDesign(double lambda, double width, boolean steady) {

    public EwmaDesign {
        if (!(lambda > 0 && lambda <= 1)) {
            throw new IllegalArgumentException("lambda is " + lambda + ", but has to lie above 0 and at most at 1");
        }
        Check.positive("the width", width);
    }

    /** The half-width of the limits at the n-th case, in SD of a value. */
    public double halfWidth(int n) {
        double factor = steady ? 1 : -Math.expm1(2 * n * Math.log1p(-lambda));
        return width * Math.sqrt(lambda / (2 - lambda) * (lambda == 1 ? 1 : factor));
    }

    /** Nothing is reset after a signal. */
    public ValueChart chart(ValueSeries series, Baseline baseline) {
        java.util.List<ChartPoint> points = new java.util.ArrayList<>();
        double z = baseline.mean();
        for (int i = 0; i < series.size(); i++) {
            double value = series.values().get(i);
            z += lambda * (value - z);
            double half = halfWidth(i + 1) * baseline.sd();
            double upper = baseline.mean() + half;
            double lower = baseline.mean() - half;
            SignalKind signal = z > upper ? SignalKind.HIGH : z < lower ? SignalKind.LOW : null;
            points.add(new ChartPoint(series.first() + i, value, z, lower, upper, signal, ""));
        }
        java.util.List<String> warnings = new java.util.ArrayList<>(series.warnings());
        warnings.addAll(baseline.warnings());
        return new ValueChart(
                "EWMA, lambda " + lambda + ", " + width + " SD", baseline, points, java.util.List.of(), warnings);
    }
}
