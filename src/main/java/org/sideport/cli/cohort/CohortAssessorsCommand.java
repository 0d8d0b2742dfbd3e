package org.sideport.cli.cohort;

import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.LeftOutCases;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Plural;
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
            "Example: sideport cohort assessors --out assessors --json"
        })
final class CohortAssessorsCommand implements Callable<Integer> {

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
                TextTable table =
                        new TextTable("assessor", ">marks", ">shared cases", ">less the others", "95 % limits");
                view.assessors().forEach(a -> table.row(row(a)));
                table.print(console::say);
                all.forEach(chart -> console.say(chart.note()));
                CohortView.Agreement agreement = view.agreement();
                if (agreement != null) {
                    console.say("The same item of the same case by two assessors: equal in "
                            + percent(agreement.exact()) + ", within one level in " + percent(agreement.withinOne())
                            + " of " + Plural.of(agreement.comparisons(), "comparison") + ".");
                }
                charts.wrote(files, console);
                LeftOutCases.say(view.leftOut(), console);
            }
        }
        return 0;
    }

    private static String[] row(CohortView.Assessor of) {
        return new String[] {
            of.code(),
            String.valueOf(of.marks()),
            String.valueOf(of.shared()),
            points(of.difference()),
            of.lower() == null ? "–" : points(of.lower()) + " to " + points(of.upper())
        };
    }

    /** In percentage points. */
    private static String points(@Nullable Double share) {
        return share == null
                ? "–"
                : String.format(Locale.ROOT, "%.1f", 100 * share).replace('-', '−');
    }

    private static String percent(@Nullable Double share) {
        return share == null ? "–" : String.format(Locale.ROOT, "%.1f %%", 100 * share);
    }
}
