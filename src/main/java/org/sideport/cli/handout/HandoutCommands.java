package org.sideport.cli.handout;

import java.util.List;
import org.sideport.cli.console.Console;

/** Commands that write what people take away. */
public final class HandoutCommands {

    private HandoutCommands() {}

    /** Within the group {@code report}. */
    public static List<Object> report(Console console) {
        return List.of(
                new ReportFeedbackCommand(console),
                new ReportPortfolioCommand(console),
                new ReportCohortCommand(console));
    }
}
