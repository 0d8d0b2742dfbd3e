package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.model.Plural;
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
            "Example: sideport cohort severity --json"
        })
final class CohortSeverityCommand extends StatsCommand {

    @Option(
            names = "--rubric",
            paramLabel = "R",
            defaultValue = "",
            description = "Id of the rubric; by default the one with most signed marks.")
    String rubric = "";

    @Option(names = "--rubric-version", paramLabel = "V", description = "By default the one in use now.")
    @Nullable
    String version;

    @Option(
            names = "--last",
            paramLabel = "N",
            defaultValue = "" + FollowCohort.USUAL_SEVERITY_CASES,
            description = "Where more cases were marked, only the latest N that several marked; 0 for all, which takes"
                    + " minutes for thousands; default: ${DEFAULT-VALUE}.")
    int last = FollowCohort.USUAL_SEVERITY_CASES;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    CohortSeverityCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        try (Workspace workspace = console().open()) {
            return new FollowCohort(workspace, Day.clock())
                    .severity(rubric, version, confidence.level(), last)
                    .map(found -> said(found, new SeverityReport(found.fit(), true, confidence.level()).answer()));
        }
    }

    private static Answer said(FollowCohort.Severity found, Answer answer) {
        if (found.leftOut() == 0) {
            return answer;
        }
        List<String> warnings = new ArrayList<>(answer.warnings());
        warnings.add(Plural.of(found.leftOut(), "marked case")
                + " left out: only the latest that several assessors marked tell of severity here (--last)");
        return new Answer(answer.json(), answer.lines(), warnings, answer.sentence());
    }
}
