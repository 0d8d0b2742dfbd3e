package org.sideport.cli.exchange;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Options of imports from published formats. */
final class OpenImportOptions {

    @Option(names = "--case", paramLabel = "C", description = "Tags and comments: the case that they are of.")
    @Nullable
    String code;

    @Option(names = "--replace", description = "Tags: put them in the place of those that --by has already.")
    boolean replace;

    @Option(
            names = "--tone",
            paramLabel = "T",
            defaultValue = "question",
            description = "Comments that do not say what they are meant as: praise, improve or question. Default:"
                    + " ${DEFAULT-VALUE}.")
    String tone = "question";

    @Option(
            names = "--procedure",
            paramLabel = "ID",
            defaultValue = "phaco",
            description = "Rubrics of other programs: the procedure that they assess. Default: ${DEFAULT-VALUE}.")
    String procedure = "phaco";
}
