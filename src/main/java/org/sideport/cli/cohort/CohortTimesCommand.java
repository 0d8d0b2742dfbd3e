package org.sideport.cli.cohort;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.LeftOutCases;
import org.sideport.cli.console.TextTable;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortTimes;
import org.sideport.workflow.CohortTimesView;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.ProgressView.Held;
import org.sideport.workflow.progress.ProgressWords;
import org.sideport.workflow.progress.UnitCharts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "times",
        sortOptions = false,
        description = {
            "What phases take the trainees: median and quartiles over trainees, each counted once by the median of the",
            "latest cases; beside the unit's exemplars or published times. Speed is not competence.",
            "Example: sideport cohort times --last 6 --out times --json"
        })
final class CohortTimesCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--procedure",
            paramLabel = "ID",
            defaultValue = "phaco",
            description = "Id of the procedure; default: ${DEFAULT-VALUE}.")
    String procedure = "phaco";

    @Option(
            names = "--last",
            paramLabel = "N",
            defaultValue = "" + FollowCohort.USUAL_LAST,
            description = "Latest cases of each trainee; default: ${DEFAULT-VALUE}.")
    int last = FollowCohort.USUAL_LAST;

    @Option(
            names = "--against",
            paramLabel = "ID",
            description = "Id of a reference, as in the JSON; by default exemplars, else published times of much"
                    + " experience.")
    @Nullable
    String against;

    @Option(names = "--steps", description = "The steps of phases too.")
    boolean steps;

    @Mixin
    private ChartOptions charts = new ChartOptions();

    CohortTimesCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            CohortTimesView view = new CohortTimes(workspace).show(procedure, last);
            List<Chart> all = new UnitCharts(charts.words()).times(view, against, steps);
            List<String> files = charts.write(all);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "procedure", view.procedure().id(),
                        "last_cases", view.last(),
                        "phases",
                                view.terms().stream()
                                        .map(CohortTimesCommand::json)
                                        .toList(),
                        "left_out", LeftOutCases.json(view.leftOut()),
                        "files", files));
            } else {
                TextTable table =
                        new TextTable("phase", ">trainees", ">median", "middle half", ">held against", "middle half");
                view.terms().stream().filter(t -> steps || !t.step()).forEach(t -> table.row(row(t, charts.words())));
                table.print(console::say);
                all.stream().findFirst().ifPresent(chart -> console.say(chart.note()));
                charts.wrote(files, console);
                LeftOutCases.say(view.leftOut(), console);
            }
        }
        return 0;
    }

    private String[] row(CohortTimesView.Term of, ProgressWords words) {
        Held held = UnitCharts.held(of, against).orElse(null);
        return new String[] {
            of.name().isEmpty() ? words.get("whole") : of.name(),
            String.valueOf(of.trainees().size()),
            words.seconds(of.middleUs()),
            words.seconds(of.lowUs()) + " to " + words.seconds(of.highUs()),
            held == null ? "–" : words.seconds((double) held.usual().middleUs()),
            held == null
                    ? "–"
                    : words.seconds((double) held.usual().lowUs()) + " to "
                            + words.seconds((double) held.usual().highUs())
        };
    }

    private static Object json(CohortTimesView.Term term) {
        return Json.object(
                "phase", term.id(),
                "step", term.step(),
                "trainees", term.trainees().size(),
                "cases", term.cases(),
                "low_us", term.lowUs(),
                "median_us", term.middleUs(),
                "high_us", term.highUs(),
                "quartiles", term.quartiles(),
                "medians",
                        term.trainees().stream()
                                .map(t -> Json.object(
                                        "trainee", t.trainee(), "cases", t.cases(), "median_us", t.medianUs()))
                                .toList(),
                "references",
                        term.references().stream()
                                .map(h -> Json.object(
                                        "id", h.id(),
                                        "n", h.usual().n(),
                                        "low_us", h.usual().lowUs(),
                                        "median_us", h.usual().middleUs(),
                                        "high_us", h.usual().highUs(),
                                        "quartiles", h.usual().quartiles(),
                                        "source", h.source(),
                                        "caveat", h.caveat()))
                                .toList());
    }
}
