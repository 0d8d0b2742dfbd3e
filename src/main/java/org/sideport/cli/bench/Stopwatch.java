package org.sideport.cli.bench;

import java.util.Arrays;
import java.util.function.DoubleSupplier;

/**
 * Median time of a work that is done several times, after a warm-up that lets the virtual machine compile it.
 *
 * @param warmUps runs before those that count
 * @param repeats runs that count, at least one
 */
record Stopwatch(int warmUps, int repeats) {

    /** @param value what the last run returned */
    record Timing(double seconds, double value) {}

    Timing time(DoubleSupplier work) {
        double value = 0;
        for (int i = 0; i < warmUps; i++) {
            value = work.getAsDouble();
        }
        double[] seconds = new double[repeats];
        for (int i = 0; i < repeats; i++) {
            long start = System.nanoTime();
            value = work.getAsDouble();
            seconds[i] = (System.nanoTime() - start) / 1e9;
        }
        return new Timing(median(seconds), value);
    }

    static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }
}
