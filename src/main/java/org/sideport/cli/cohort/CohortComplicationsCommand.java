package org.sideport.cli.cohort;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.LeftOutCases;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Interval;
import org.sideport.store.Workspace;
import org.sideport.workflow.ComplicationsView;
import org.sideport.workflow.UnitComplications;
import org.sideport.workflow.progress.ProgressSentences;
import org.sideport.workflow.progress.ProgressWords;
import org.sideport.workflow.progress.UnitCharts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "complications",
        sortOptions = false,
        description = {
            "Complications by trainee in a funnel of exact binomial limits around the unit's rate, and case by case"
                    + " for",
            "those whose log is stated to be complete. With --shared, counts below --fewest are hidden.",
            "No verdict on anybody. Example: sideport cohort complications --log-complete T01,T02 --out complications"
        })
final class CohortComplicationsCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--procedure",
            paramLabel = "ID",
            defaultValue = "phaco",
            description = "Id of the procedure; default: ${DEFAULT-VALUE}.")
    String procedure = "phaco";

    @Option(
            names = "--log-complete",
            split = ",",
            paramLabel = "T",
            description = "Trainees of whom you state that every operation is here, in turn.")
    List<String> complete = List.of();

    @Option(names = "--shared", description = "For passing on: small counts are hidden.")
    boolean shared;

    @Option(
            names = "--fewest",
            paramLabel = "N",
            defaultValue = "" + UnitComplications.USUAL_FEWEST,
            description = "Counts below are hidden; default: ${DEFAULT-VALUE} (common practice, no source).")
    int fewest = UnitComplications.USUAL_FEWEST;

    @Mixin
    private ChartOptions charts = new ChartOptions();

    CohortComplicationsCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            ComplicationsView view = new UnitComplications(workspace)
                    .show(new UnitComplications.Question(procedure, Set.copyOf(complete), shared ? fewest : 0));
            ProgressWords words = charts.words();
            UnitCharts drawn = new UnitCharts(words);
            List<Chart> all = new ArrayList<>();
            drawn.funnel(view).ifPresent(all::add);
            view.trainees().forEach(t -> drawn.watch(view, t).ifPresent(all::add));
            List<String> files = charts.write(all);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "procedure", view.procedure().id(),
                        "counted", view.kinds(),
                        "cases", view.cases(),
                        "known", view.known(),
                        "failures", view.masked() ? null : view.failures(),
                        "rate", view.rate(),
                        "rate_limits", limits(view.rateLimits()),
                        "hidden_below", view.fewest(),
                        "trainees",
                                view.trainees().stream()
                                        .map(t -> trainee(t, new ProgressSentences(words)))
                                        .toList(),
                        "says", drawn.sentence(view),
                        "left_out", LeftOutCases.json(view.leftOut()),
                        "files", files));
            } else {
                console.say(drawn.sentence(view));
                console.say("");
                ProgressSentences sentences = new ProgressSentences(words);
                TextTable table = new TextTable("trainee", ">known", ">events", ">share", ">to be expected, 95 %");
                view.trainees().forEach(t -> table.row(row(t, words)));
                table.print(console::say);
                console.say("known: cases with a known outcome, of all; events: cases with an event that counts.");
                console.say("");
                view.trainees().stream()
                        .filter(t -> !t.masked() && complete.contains(t.trainee()))
                        .forEach(t -> console.say(t.trainee() + ": " + sentences.monitoring(t.monitoring())));
                drawn.funnel(view).ifPresent(funnel -> console.say(funnel.note()));
                charts.wrote(files, console);
                LeftOutCases.say(view.leftOut(), console);
            }
        }
        return 0;
    }

    private static String[] row(ComplicationsView.OfTrainee of, ProgressWords words) {
        if (of.masked()) {
            return new String[] {of.trainee(), "hidden", "hidden", "hidden", "hidden"};
        }
        Interval expected = of.inner();
        Double share = of.share();
        return new String[] {
            of.trainee(),
            of.known() + " of " + of.cases(),
            String.valueOf(of.failures()),
            share == null ? "–" : words.number(100 * share, 1) + " %",
            expected == null
                    ? "–"
                    : words.number(100 * expected.lower(), 1) + " to " + words.number(100 * expected.upper(), 1) + " %"
        };
    }

    private static Object trainee(ComplicationsView.OfTrainee of, ProgressSentences sentences) {
        return Json.object(
                "trainee", of.trainee(),
                "masked", of.masked(),
                "cases", of.cases(),
                "known", of.masked() ? null : of.known(),
                "failures", of.masked() ? null : of.failures(),
                "share", of.share(),
                "limits_95", limits(of.inner()),
                "limits_99_8", limits(of.outer()),
                "monitoring_says", sentences.monitoring(of.monitoring()));
    }

    private static @Nullable Object limits(@Nullable Interval limits) {
        return limits == null ? null : List.of(limits.lower(), limits.upper());
    }
}
