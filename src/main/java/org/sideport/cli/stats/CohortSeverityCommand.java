package org.sideport.cli.stats;

import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.stats.Outcome;
import org.sideport.store.Workspace;
import org.sideport.workflow.FollowCohort;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "severity",
        description = {
            "How severe each assessor of the unit is, out of its signed marks (many-facet Rasch model): as stats"
                    + " severity, each case by itself, so that only cases which several assessors marked tell of the"
                    + " difference.",
            "Example: sideport cohort severity --rubric phaco-competency --json"
        })
final class CohortSeverityCommand extends StatsCommand {

    @Option(names = "--rubric", paramLabel = "R", required = true, description = "Id of the rubric.")
    String rubric = "";

    @Option(names = "--rubric-version", paramLabel = "V", description = "By default the one in use now.")
    @Nullable
    String version;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    CohortSeverityCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        try (Workspace workspace = console().open()) {
            return new FollowCohort(workspace, Day.clock())
                    .severity(rubric, version, confidence.level())
                    .map(fit -> new SeverityReport(fit, true, confidence.level()).answer());
        }
    }
}
