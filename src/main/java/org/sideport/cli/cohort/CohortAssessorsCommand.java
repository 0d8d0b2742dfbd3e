package org.sideport.cli.cohort;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.LeftOutCases;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.progress.UnitCharts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "assessors",
        sortOptions = false,
        description = {
            "How severe assessors are beside the others of the same cases, with limits, and how often they agree.",
            "Example: sideport cohort assessors --rubric phaco-competency --out assessors --json"
        })
final class CohortAssessorsCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--rubric", paramLabel = "R", required = true, description = "Id of the rubric.")
    String rubric = "";

    @Option(names = "--rubric-version", paramLabel = "V", description = "By default the one in use now.")
    @Nullable
    String version;

    @Mixin
    private ChartOptions charts = new ChartOptions();

    CohortAssessorsCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            FollowCohort.Question usual = FollowCohort.Question.of(rubric);
            CohortView view = new FollowCohort(workspace, Day.clock())
                    .show(new FollowCohort.Question(
                            rubric, version, usual.last(), usual.by(), usual.wish(), usual.minutes()));
            List<Chart> all =
                    new UnitCharts(charts.words()).assessors(view).stream().toList();
            List<String> files = charts.write(all);
            if (console.isJson()) {
                CohortView.Agreement agreement = view.agreement();
                console.printJson(Json.object(
                        "rubric",
                        view.rubric().id(),
                        "assessors",
                        view.assessors().stream()
                                .map(a -> Json.object(
                                        "assessor", a.code(),
                                        "marks", a.marks(),
                                        "trainees", a.trainees(),
                                        "shared_cases", a.shared(),
                                        "difference", a.difference(),
                                        "lower", a.lower(),
                                        "upper", a.upper()))
                                .toList(),
                        "exact",
                        agreement == null ? null : agreement.exact(),
                        "within_one_level",
                        agreement == null ? null : agreement.withinOne(),
                        "comparisons",
                        agreement == null ? 0 : agreement.comparisons(),
                        "left_out",
                        LeftOutCases.json(view.leftOut()),
                        "files",
                        files));
            } else {
                charts.print(all, files, console);
                LeftOutCases.say(view.leftOut(), console);
            }
        }
        return 0;
    }
}
