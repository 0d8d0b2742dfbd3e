package org.sideport.media.trace;

/**
 * One smooth curve of how much moves on its own, on a logarithmic scale, over the moments that show something, and the
 * level that splits rest from work.
 */
final class Activity {

    private static final double SMOOTH_SECONDS = 1;
    /** What noise moves: keeps the logarithm of a picture that stands finite. */
    private static final double FLOOR = 0.1;
    /** Rest and work differ by this factor at least, or nothing is proposed. */
    private static final double CLEAR_FACTOR = 1.8;

    private static final int BINS = 64;

    private final double[] curve;
    private final double threshold;
    private final double factor;

    /** @param kept the moments that count, ascending; the others are left out as if they had not been */
    Activity(Traces traces, Moments moments, int[] kept) {
        float[] activity = traces.of(TraceKind.ACTIVITY);
        float[] motion = traces.of(TraceKind.MOTION);
        float[] both = new float[kept.length];
        for (int i = 0; i < both.length; i++) {
            // a hundredth of the width a moment of own movement counts like one grey level of a block
            both[i] = activity[kept[i]] + motion[kept[i]];
        }
        double[] smooth = Numbers.runningMedian(both, moments.count(SMOOTH_SECONDS));
        curve = new double[smooth.length];
        for (int i = 0; i < curve.length; i++) {
            curve[i] = Math.log(FLOOR + smooth[i]);
        }
        double split = otsu(curve);
        double low = mean(curve, Double.NEGATIVE_INFINITY, split);
        double high = mean(curve, split, Double.POSITIVE_INFINITY);
        threshold = split;
        factor = Math.exp(high - low);
    }

    /** Logarithm of the smoothed activity at each moment that counts. */
    double[] curve() {
        return curve;
    }

    double threshold() {
        return threshold;
    }

    /** How many times more moves in work than at rest. */
    double factor() {
        return factor;
    }

    boolean isClear() {
        return factor >= CLEAR_FACTOR;
    }

    /**
     * The level with the greatest variance between the classes below and above it (N. Otsu, A threshold selection method
     * from gray-level histograms, IEEE Transactions on Systems, Man, and Cybernetics 9 (1979) 62–66).
     */
    static double otsu(double[] values) {
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < values.length; i++) {
            least = Math.min(least, values[i]);
            most = Math.max(most, values[i]);
        }
        if (!(most > least)) {
            return least;
        }
        int[] counts = new int[BINS];
        for (int i = 0; i < values.length; i++) {
            counts[(int) Math.min(BINS - 1, BINS * (values[i] - least) / (most - least))]++;
        }
        double all = 0;
        double total = 0;
        for (int bin = 0; bin < BINS; bin++) {
            all += counts[bin];
            total += (double) bin * counts[bin];
        }
        double below = 0;
        double sum = 0;
        double best = -1;
        double first = 0;
        double last = 0;
        for (int bin = 0; bin < BINS - 1; bin++) {
            below += counts[bin];
            sum += (double) bin * counts[bin];
            if (below == 0 || below == all) {
                continue;
            }
            double distance = sum / below - (total - sum) / (all - below);
            double between = below * (all - below) * distance * distance;
            if (between > best * (1 + 1e-12)) {
                best = between;
                first = bin + 1;
            }
            if (between >= best) {
                // empty bins between the classes score the same: the middle of them is the fairest
                last = bin + 1;
            }
        }
        return least + (most - least) * (first + last) / 2 / BINS;
    }

    private static double mean(double[] values, double from, double to) {
        double sum = 0;
        int n = 0;
        for (int i = 0; i < values.length; i++) {
            if (values[i] >= from && values[i] < to) {
                sum += values[i];
                n++;
            }
        }
        return n == 0 ? 0 : sum / n;
    }
}
