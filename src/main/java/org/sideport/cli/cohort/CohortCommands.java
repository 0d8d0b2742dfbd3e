package org.sideport.cli.cohort;

import java.util.List;
import org.sideport.cli.console.Console;

/** Further commands of the group {@code cohort}. */
public final class CohortCommands {

    private CohortCommands() {}

    public static List<Object> all(Console console) {
        return List.of(
                new CohortMarksCommand(console),
                new CohortWorkCommand(console),
                new CohortPlanCommand(console),
                new CohortComplicationsCommand(console),
                new CohortTimesCommand(console),
                new CohortAssessorsCommand(console));
    }
}
