package org.sideport.cli.standard;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.FollowCohort;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "show",
        description = {
            "Trainees by competencies with n, the mean of the latest cases, its limits and the last day; missing and"
                    + " late",
            "work; how assessors differ; how much marking a decision about a trainee would take.",
            "Example: sideport cohort show --json"
        })
final class CohortShowCommand implements Callable<Integer> {

    private final Console console;

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
            defaultValue = "" + FollowCohort.USUAL_LAST,
            description = "Means over the latest N marked cases; default: ${DEFAULT-VALUE}.")
    int last = FollowCohort.USUAL_LAST;

    @Option(
            names = "--by",
            paramLabel = "domain|item",
            defaultValue = "domain",
            description = "What the columns are; default: ${DEFAULT-VALUE}.")
    CohortView.By by = CohortView.By.DOMAIN;

    @Option(
            names = "--wish",
            paramLabel = "W",
            defaultValue = "0.80",
            description = "Coefficient Φ to plan for; default: ${DEFAULT-VALUE}.")
    double wish = Decisions.USUAL_WISH;

    @Option(
            names = "--minutes",
            paramLabel = "MIN",
            defaultValue = "15",
            description = "Minutes of one assessor for one case; default: ${DEFAULT-VALUE}.")
    double minutes = Decisions.USUAL_MINUTES;

    CohortShowCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            CohortView view = new FollowCohort(workspace, Day.clock())
                    .show(new FollowCohort.Question(rubric, version, last, by, wish, minutes));
            if (console.isJson()) {
                console.printJson(CohortViews.json(view));
            } else {
                CohortViews.print(view, console);
            }
        }
        return 0;
    }
}
