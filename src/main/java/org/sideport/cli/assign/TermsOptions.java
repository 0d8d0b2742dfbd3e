package org.sideport.cli.assign;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;
import org.sideport.workflow.assign.Assignments;
import picocli.CommandLine.Option;

/** How cases are given. */
final class TermsOptions {

    @Option(
            names = "--hide",
            paramLabel = "WHAT",
            defaultValue = "all",
            description =
                    "What the assessor may not learn before signing: all, nothing, or some of trainee, date, order,"
                            + " stage, earlier_marks, complications, sound, file_names. Default: ${DEFAULT-VALUE}.")
    String hide = "all";

    @Option(
            names = "--due",
            paramLabel = "ISO",
            description = "The day by which the marks should be signed, today or later.")
    @Nullable
    LocalDate due;

    Assignments.Terms of(Assignment.Purpose purpose) {
        return new Assignments.Terms(purpose, Hidden.parseAll(hide), due);
    }
}
