package org.sideport.stats.learning;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.random.RandomGenerator;
import org.hipparchus.random.Well19937c;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.QuantileType;
import org.sideport.stats.Quantiles;
import org.sideport.stats.Refusal;
import org.sideport.stats.regression.AkaikeCriterion;
import org.sideport.stats.regression.DesignMatrix;
import org.sideport.stats.regression.LinearFit;
import org.sideport.stats.regression.LinearLeastSquares;

/**
 * One change in a series of cases, found by least squares on the scale of the errors. The test against no change counts
 * the search over all places: the best place of a series without change looks striking too.
 *
 * @param at case number: of the first case of the second level, or where two lines join
 * @param limits of the place, percentile, from series made of the fit and its resampled residuals (Hinkley & Schechtman
 *     1987, Biometrika 74:85); approximate
 * @param before level (in the unit of the values, for durations the geometric mean) or slope per case (on the scale of the
 *     errors) before the change
 * @param after likewise
 * @param f statistic: gain in the sum of squares by the broken fit over its mean square
 * @param p share of series without change, made of the unbroken fit and its resampled residuals, whose best break gains
 *     as much: {@code (1 + count) / (1 + resamples)}
 * @param aicc comparable with that of {@link LearningFit}; the place counts as a parameter
 * @param n cases
 */
public record ChangePoint(
        Shape shape,
        double at,
        Interval limits,
        double before,
        double after,
        double sumOfSquares,
        double f,
        double p,
        double aicc,
        int n,
        int resamples) {

    /** What changes. */
    public enum Shape {
        /** Two levels; without change one. */
        LEVELS(1, 3),
        /** Two lines that join; without change one line. */
        LINES(2, 4);

        private final int unbroken;
        private final int broken;

        Shape(int unbroken, int broken) {
            this.unbroken = unbroken;
            this.broken = broken;
        }
    }

    /**
     * @param resamples of the test and of the limits, at least 100
     * @param seed the same seed gives the same limits and p
     * @return refused if no place leaves three different case numbers on either side, or nothing is left to err
     */
    public static Outcome<ChangePoint> of(CaseSeries series, Shape shape, int resamples, long seed, double level) {
        if (resamples < 100) {
            throw new IllegalArgumentException(resamples + " resamples are too few; take 100 or more");
        }
        double[] x = series.caseNumber();
        double[] y = series.response();
        BreakSearch search = new BreakSearch(x, shape);
        BreakSearch.@Nullable Break best = search.best(y);
        if (best == null) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "no place among " + y.length + " cases leaves " + BreakSearch.FEWEST
                            + " different case numbers on either side",
                    "collect more cases");
        }
        double[] whole = unbroken(x, y, shape);
        double squares = best.sumOfSquares();
        double without = squares(y, whole);
        if (!(squares > 1e-20 * without)) {
            return Outcome.refused(Refusal.Reason.NO_VARIATION, "all values lie on the broken fit", "check the data");
        }
        int n = y.length;
        double[] parts = parts(x, y, shape, best);
        double[] fitted = broken(x, parts, shape, best);
        double f = f(without, squares, n, shape);
        RandomGenerator random = new Well19937c(seed);
        int asStriking = 0;
        double[] remade = new double[n];
        double[] errors = errors(y, whole, shape.unbroken);
        for (int b = 0; b < resamples; b++) {
            remake(remade, whole, errors, random);
            BreakSearch.@Nullable Break found = search.best(remade);
            if (found != null && f(squares(remade, unbroken(x, remade, shape)), found.sumOfSquares(), n, shape) >= f) {
                asStriking++;
            }
        }
        double[] places = new double[resamples];
        errors = errors(y, fitted, shape.broken);
        for (int b = 0; b < resamples; b++) {
            remake(remade, fitted, errors, random);
            BreakSearch.@Nullable Break found = search.best(remade);
            places[b] = found == null ? best.at() : found.at();
        }
        Arrays.sort(places);
        Interval limits = new Interval(
                Quantiles.ofSorted(places, 0.5 - level / 2, QuantileType.WEIBULL),
                Quantiles.ofSorted(places, 0.5 + level / 2, QuantileType.WEIBULL),
                level);
        boolean levels = shape == Shape.LEVELS;
        boolean logs = series.scale() == CaseSeries.Scale.LOG;
        return Outcome.of(new ChangePoint(
                shape,
                best.at(),
                limits,
                levels ? logs ? Math.exp(parts[0]) : parts[0] : parts[1],
                levels ? logs ? Math.exp(parts[1]) : parts[1] : parts[1] + parts[2],
                squares,
                f,
                (1.0 + asStriking) / (1 + resamples),
                AkaikeCriterion.corrected(squares, n, shape.broken + 1),
                n,
                resamples));
    }

    private static double f(double without, double with, int n, Shape shape) {
        return (without - with) / (shape.broken - shape.unbroken) / (with / (n - shape.broken));
    }

    /** Two levels; or intercept, slope and change of slope. */
    private static double[] parts(double[] x, double[] y, Shape shape, BreakSearch.Break at) {
        if (shape == Shape.LEVELS) {
            double[] means = new double[2];
            for (int i = 0; i < y.length; i++) {
                means[i < at.before() ? 0 : 1] += y[i] / (i < at.before() ? at.before() : y.length - at.before());
            }
            return means;
        }
        double[] bend = Arrays.stream(x).map(v -> Math.max(0, v - at.at())).toArray();
        LinearFit fit = LinearLeastSquares.fit(
                        DesignMatrix.of(List.of("slope", "bend"), new double[][] {x, bend}, true), y, 0.95)
                .orElseThrow();
        return fit.coefficients().stream().mapToDouble(c -> c.value()).toArray();
    }

    private static double[] broken(double[] x, double[] parts, Shape shape, BreakSearch.Break at) {
        double[] fitted = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            fitted[i] = shape == Shape.LEVELS
                    ? parts[i < at.before() ? 0 : 1]
                    : parts[0] + parts[1] * x[i] + parts[2] * Math.max(0, x[i] - at.at());
        }
        return fitted;
    }

    private static double[] unbroken(double[] x, double[] y, Shape shape) {
        double mx = Arrays.stream(x).average().orElseThrow();
        double my = Arrays.stream(y).average().orElseThrow();
        double sxx = 0;
        double sxy = 0;
        for (int i = 0; i < x.length; i++) {
            sxx += (x[i] - mx) * (x[i] - mx);
            sxy += (x[i] - mx) * (y[i] - my);
        }
        double slope = shape == Shape.LEVELS ? 0 : sxy / sxx;
        return Arrays.stream(x).map(v -> my + slope * (v - mx)).toArray();
    }

    private static double squares(double[] y, double[] fitted) {
        double sum = 0;
        for (int i = 0; i < y.length; i++) {
            sum += (y[i] - fitted[i]) * (y[i] - fitted[i]);
        }
        return sum;
    }

    /** Residuals with mean 0, stretched by what the fit took of their spread. */
    private static double[] errors(double[] y, double[] fitted, int parameters) {
        int n = y.length;
        double stretch = Math.sqrt((double) n / (n - parameters));
        double mean = 0;
        for (int i = 0; i < n; i++) {
            mean += (y[i] - fitted[i]) / n;
        }
        double[] errors = new double[n];
        for (int i = 0; i < n; i++) {
            errors[i] = stretch * (y[i] - fitted[i] - mean);
        }
        return errors;
    }

    private static void remake(double[] into, double[] fitted, double[] errors, RandomGenerator random) {
        for (int i = 0; i < into.length; i++) {
            into[i] = fitted[i] + errors[random.nextInt(errors.length)];
        }
    }
}
