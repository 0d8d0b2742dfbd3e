package org.sideport.cli.bench;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.sideport.stats.resample.Bootstrap;

/** BCa limits of a mean against as many plain sorts of as many values. */
final class BootstrapMeasurement implements Measurement {

    private static final int RESAMPLES = 10_000;
    private static final int VALUES = 200;

    private final double[] values = new double[VALUES];

    BootstrapMeasurement() {
        SplittableRandom random = new SplittableRandom(20);
        Arrays.setAll(values, i -> Math.exp(random.nextGaussian()));
    }

    @Override
    public String id() {
        return "bca";
    }

    @Override
    public String what() {
        return "BCa limits of a mean, 10 000 resamples of 200 values";
    }

    @Override
    public double own() {
        return new Bootstrap(RESAMPLES, 1, 0.95)
                .bca(VALUES, this::mean)
                .orElseThrow()
                .upper();
    }

    private double mean(int[] indices) {
        double sum = 0;
        for (int i : indices) {
            sum += values[i];
        }
        return sum / indices.length;
    }

    @Override
    public Baseline baseline() {
        return new Baseline.Work("10 000 sorts of 200 values", this::sorts);
    }

    private double sorts() {
        double sum = 0;
        for (int i = 0; i < RESAMPLES; i++) {
            double[] copy = values.clone();
            // another order each time, so that no sort finds what the last one left
            double first = copy[i % VALUES];
            copy[i % VALUES] = copy[0];
            copy[0] = first;
            Arrays.sort(copy);
            sum += copy[VALUES / 2];
        }
        return sum;
    }
}
