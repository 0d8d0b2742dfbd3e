package org.sideport.stats.monitoring;

import java.util.Arrays;

/**
 * Limits for what is wished of a chart that is held at 0. The statistic of a chart of failures takes single values only, so
 * a run length is a step function of the limit and the wish is met from the safe side.
 */
public final class LimitFinder {

    /** Beyond this a horizon's attainable values are too many to list. */
    public static final int LONGEST_HORIZON = 1000;

    private LimitFinder() {}

    /**
     * Limits for a false-signal probability within n cases.
     *
     * @param quantile the smallest attainable value that the highest statistic of n cases does not exceed with probability
     *     1 − α or more, the limit of a chart that signals above it
     * @param reaching P(highest statistic ≥ quantile), which may exceed α
     * @param limit the smallest attainable value with P(highest statistic ≥ limit) ≤ α: the limit for this program's
     *     charts, which signal at it
     * @param falseSignals that probability
     */
    public record HorizonLimit(double quantile, double reaching, double limit, double falseSignals) {}

    /**
     * @param design its limit is of no account
     * @param rate the rate at which a signal is false, the same for every case
     * @param n number of cases, 1 to {@link #LONGEST_HORIZON}
     * @param alpha wished probability of a false signal within n cases, 0 to 1 exclusive
     * @throws IllegalArgumentException if even n weights upwards in turn are likelier than α
     */
    public static HorizonLimit forHorizon(BinaryDesign design, double rate, int n, double alpha) {
        Check.rate("the false-signal probability", alpha);
        if (n < 1 || n > LONGEST_HORIZON) {
            throw new IllegalArgumentException("a horizon of " + n + " cases; 1 to " + LONGEST_HORIZON + " can be met");
        }
        double[] values = attainable(design, n);
        int low = 0;
        int high = values.length - 1;
        double top = within(design, rate, n, values[high]);
        if (top > alpha) {
            throw new IllegalArgumentException("within " + n + " cases even the highest value " + values[high]
                    + " is reached with probability " + top + ", above " + alpha);
        }
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (within(design, rate, n, values[middle]) <= alpha) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        double below = low == 0 ? 0 : values[low - 1];
        return new HorizonLimit(
                below,
                low == 0 ? 1 : within(design, rate, n, below),
                values[low],
                within(design, rate, n, values[low]));
    }

    /**
     * The smallest limit, up to 1e-4, with an average run length of at least this at the rate at which a signal is false.
     *
     * @param design its limit is of no account
     * @param wished average run length, above 1
     */
    public static double forRunLength(BinaryDesign design, double rate, double wished) {
        if (!(wished > 1 && wished <= 1e7)) {
            throw new IllegalArgumentException("an average run length of " + wished + " cannot be met");
        }
        int units = design instanceof TabularDesign tabular ? BinaryRunLength.unitsPerCase(tabular.k()) : 0;
        double step = units > 0 ? 1.0 / units : 1e-4;
        long high = Math.max(1, Math.round(0.5 / step));
        while (arl(design, rate, high * step) < wished) {
            high *= 2;
            if (high * step > 64) {
                throw new IllegalArgumentException("no limit up to 64 has an average run length of " + wished);
            }
        }
        long low = 0;
        while (high - low > 1) {
            long middle = (low + high) / 2;
            if (arl(design, rate, middle * step) < wished) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high * step;
    }

    private static double arl(BinaryDesign design, double rate, double limit) {
        return RunLength.of(BinaryRunLength.chain(withLimit(design, limit), rate), 1e-7)
                .arl();
    }

    private static double within(BinaryDesign design, double rate, int n, double limit) {
        RunChain chain = BinaryRunLength.chain(withLimit(design, limit), rate);
        double sum = 0;
        for (int i = 0; i < n; i++) {
            sum += chain.step();
        }
        return sum;
    }

    /** The same design with another limit. */
    public static BinaryDesign withLimit(BinaryDesign design, double limit) {
        if (design instanceof TabularDesign tabular) {
            return new TabularDesign(tabular.k(), limit, tabular.p0(), tabular.p1());
        }
        if (design instanceof LlrDesign llr) {
            return new LlrDesign(llr.oddsMultiplier(), limit, llr.p0());
        }
        if (design instanceof LearningCurveDesign learning) {
            return new LearningCurveDesign(learning.pa(), learning.pi(), limit);
        }
        throw new IllegalArgumentException("the limits of a sequential test follow from alpha and beta");
    }

    /** All values above 0 that the statistic can take within n cases, ascending, equal ones once. */
    private static double[] attainable(BinaryDesign design, int n) {
        double failure = design.weight(true, design.acceptableRate());
        double success = design.weight(false, design.acceptableRate());
        double up = Math.max(failure, success);
        double down = -Math.min(failure, success);
        double[] values = new double[n * (n + 1) / 2];
        int count = 0;
        for (int i = 1; i <= n; i++) {
            for (int j = 0; i + j <= n && i * up - j * down > BinaryDesign.TOLERANCE; j++) {
                values[count++] = i * up - j * down;
            }
        }
        values = Arrays.copyOf(values, count);
        Arrays.sort(values);
        int kept = 0;
        for (double value : values) {
            if (kept == 0 || value - values[kept - 1] > 1e-8) {
                values[kept++] = value;
            }
        }
        return Arrays.copyOf(values, kept);
    }
}
