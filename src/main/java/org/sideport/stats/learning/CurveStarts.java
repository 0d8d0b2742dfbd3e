package org.sideport.stats.learning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Starting values: the parameter that bends the curve from a grid, the others by linear least squares given it (Golub &
 * Pereyra 1973, SIAM Journal on Numerical Analysis 10:413), the best few kept.
 */
final class CurveStarts {

    private static final int GRID = 40;
    private static final int KEPT = 3;

    private CurveStarts() {}

    static List<double[]> of(CaseSeries series, LearningModel model) {
        List<double[]> all = new ArrayList<>();
        switch (model) {
            case CONSTANT -> all.add(new double[] {mean(series.value())});
            case LOG_LINEAR -> all.addAll(lines(series));
            case POWER -> {
                for (int k = 0; k < GRID; k++) {
                    // from half to twice per doubling
                    all.add(power(series, Math.pow(2, -1 + 2.0 * k / (GRID - 1))));
                }
            }
            case EXPONENTIAL -> {
                double widest = 4 * (series.last() - 1);
                for (int k = 0; k < GRID; k++) {
                    all.add(exponential(series, 0.25 * Math.pow(widest / 0.25, (double) k / (GRID - 1))));
                }
                double[] y = series.value();
                all.add(new double[] {y[0], y[y.length - 1], Math.max(1, series.last() / 4)});
            }
        }
        CurveOfCases curve = new CurveOfCases(series, model);
        return all.stream()
                .filter(start -> Double.isFinite(curve.sumOfSquares(start)))
                .sorted(Comparator.comparingDouble(curve::sumOfSquares))
                .limit(KEPT)
                .toList();
    }

    private static List<double[]> lines(CaseSeries series) {
        double[] x = new double[series.size()];
        for (int i = 0; i < x.length; i++) {
            x[i] = LearningModel.log2(series.caseNumber()[i]);
        }
        // a line of plain values may leave the positive numbers; a level does not
        return List.of(line(x, series.value()), new double[] {mean(series.value()), 0});
    }

    private static double[] power(CaseSeries series, double factor) {
        double[] y = series.value();
        double product = 0;
        double square = 0;
        for (int i = 0; i < y.length; i++) {
            double x = Math.pow(factor, LearningModel.log2(series.caseNumber()[i]));
            product += x * y[i];
            square += x * x;
        }
        return new double[] {product / square, factor};
    }

    private static double[] exponential(CaseSeries series, double half) {
        double[] x = new double[series.size()];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.pow(2, -(series.caseNumber()[i] - 1) / half);
        }
        double[] line = line(x, series.value());
        return new double[] {line[0] + line[1], line[0], half};
    }

    /** Intercept and slope. */
    private static double[] line(double[] x, double[] y) {
        double mx = mean(x);
        double my = mean(y);
        double sxx = 0;
        double sxy = 0;
        for (int i = 0; i < x.length; i++) {
            sxx += (x[i] - mx) * (x[i] - mx);
            sxy += (x[i] - mx) * (y[i] - my);
        }
        return new double[] {my - sxy / sxx * mx, sxy / sxx};
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum / values.length;
    }
}
