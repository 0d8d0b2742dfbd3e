package org.sideport.cli.handout;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.handout.WriteCohortReport;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "cohort",
        sortOptions = false,
        description = {
            "A cohort by one rubric, as PDF: trainees and competencies, assessors, what a decision would take, missing"
                    + " work.",
            "For directors. Example: sideport report cohort cohort.pdf"
        })
final class ReportCohortCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--rubric", paramLabel = "R", description = "By default the one with most signed marks.")
    @Nullable
    String rubric;

    @Option(
            names = "--last",
            paramLabel = "K",
            defaultValue = "" + FollowCohort.USUAL_LAST,
            description = "How many latest marked cases the means are over; default: ${DEFAULT-VALUE}.")
    int last = FollowCohort.USUAL_LAST;

    @Option(
            names = "--language",
            paramLabel = "en|de",
            defaultValue = "en",
            description = "Of the paper; default: ${DEFAULT-VALUE}.")
    String language = "en";

    @Parameters(paramLabel = "OUT.pdf")
    Path out;

    ReportCohortCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            CohortView view = new WriteCohortReport(workspace, Clock.system(ZoneId.systemDefault()))
                    .write(rubric, last, language, out, console.progress());
            if (console.isJson()) {
                console.printJson(Json.object(
                        "file",
                        out.toAbsolutePath().toString(),
                        "rubric",
                        view.rubric().id(),
                        "version",
                        view.rubric().version(),
                        "trainees",
                        view.rows().size()));
            } else {
                console.say("Wrote " + out.toAbsolutePath() + ".");
            }
        }
        return 0;
    }
}
