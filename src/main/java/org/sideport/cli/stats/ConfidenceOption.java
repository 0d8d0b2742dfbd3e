package org.sideport.cli.stats;

import org.sideport.model.InputException;
import picocli.CommandLine.Option;

/** How sure limits are to be. */
final class ConfidenceOption {

    @Option(
            names = "--confidence",
            paramLabel = "SHARE",
            defaultValue = "0.95",
            description = "Confidence of the limits (default: ${DEFAULT-VALUE}).")
    private double confidence = 0.95;

    /**
     * @throws InputException if it is not between 0 and 1
     */
    double level() {
        if (!(confidence > 0 && confidence < 1)) {
            throw new InputException(
                    "a confidence of " + confidence + " is not between 0 and 1",
                    "--confidence",
                    "write for instance 0.95");
        }
        return confidence;
    }
}
