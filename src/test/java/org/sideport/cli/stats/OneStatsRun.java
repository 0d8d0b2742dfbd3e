package org.sideport.cli.stats;

import java.io.IOException;
import tools.jackson.databind.JsonNode;

/** As {@link StatsRun}, keeping what the last call said. */
abstract class OneStatsRun extends StatsRun {

    String out = "";
    String err = "";

    /** @return the exit code */
    int call(String... arguments) {
        Run run = run(arguments);
        out = run.out();
        err = run.err();
        return run.code();
    }

    JsonNode json() {
        return new Run(0, out, err).json();
    }

    String file(String text) throws IOException {
        return file("data.csv", text);
    }
}
