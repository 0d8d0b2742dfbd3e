package org.sideport.cli.console;

import picocli.CommandLine.Option;

/** The rubric that a command works with, where the unit's usual one is meant unless another is named. */
public final class RubricOption {

    @Option(
            names = "--rubric",
            paramLabel = "ID",
            defaultValue = "phaco-competency",
            description = "Default: ${DEFAULT-VALUE}.")
    private String rubric = "";

    public String id() {
        return rubric;
    }
}
