package org.sideport.cli.progress;

import java.util.List;
import org.sideport.cli.console.Console;

/** Commands about a trainee's progress. */
public final class ProgressCommands {

    private ProgressCommands() {}

    /** Within the group {@code report}. */
    public static List<Object> report(Console console) {
        return List.of(new ReportProgressCommand(console));
    }

    /** Within the group {@code cohort}. */
    public static List<Object> cohort(Console console) {
        return List.of(new CohortPeersCommand(console));
    }
}
