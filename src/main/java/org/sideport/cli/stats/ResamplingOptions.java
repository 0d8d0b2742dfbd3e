package org.sideport.cli.stats;

import org.sideport.model.InputException;
import org.sideport.stats.resample.Bootstrap;
import picocli.CommandLine.Option;

/** Drawings that limits rest on. */
final class ResamplingOptions {

    @Option(
            names = "--resamples",
            paramLabel = "COUNT",
            defaultValue = "2000",
            description = "Drawings that bootstrap limits rest on, at least 100 (default: ${DEFAULT-VALUE}).")
    private int resamples = 2000;

    @Option(
            names = "--seed",
            paramLabel = "NUMBER",
            defaultValue = "1",
            description = "Seed of the drawings; the same seed gives the same limits (default: ${DEFAULT-VALUE}).")
    private long seed = 1;

    /**
     * @throws InputException if they are too few
     */
    int resamples() {
        if (resamples < 100) {
            throw new InputException(
                    resamples + " resamples are too few for limits", "--resamples", "take 100 or more, better 2000");
        }
        return resamples;
    }

    long seed() {
        return seed;
    }

    Bootstrap bootstrap(double level) {
        return new Bootstrap(resamples(), seed, level);
    }
}
