package org.sideport.media.trace;

import java.util.Arrays;

/** Order statistics of small arrays. */
final class Numbers {

    private Numbers() {}

    /** The middle value, or the mean of the two; 0 of none. */
    static double median(double[] values) {
        if (values.length == 0) {
            return 0;
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }

    /** Median of the values chosen. */
    static double median(float[] values, boolean[] chosen) {
        double[] kept = new double[values.length];
        int n = 0;
        for (int i = 0; i < values.length; i++) {
            if (chosen[i]) {
                kept[n++] = values[i];
            }
        }
        return median(Arrays.copyOf(kept, n));
    }

    /** Running median over a window of {@code 2 * half + 1} moments, shorter at the ends. */
    static double[] runningMedian(float[] values, int half) {
        double[] smooth = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            int from = Math.max(0, i - half);
            int to = Math.min(values.length, i + half + 1);
            double[] window = new double[to - from];
            for (int k = from; k < to; k++) {
                window[k - from] = values[k];
            }
            smooth[i] = median(window);
        }
        return smooth;
    }

    /** Value at a share of the sorted values, the next lower one. */
    static double quantile(double[] values, double share) {
        if (values.length == 0) {
            return 0;
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[(int) Math.floor(share * (sorted.length - 1))];
    }
}
