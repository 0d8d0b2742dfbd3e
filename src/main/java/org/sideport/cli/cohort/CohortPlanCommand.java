package org.sideport.cli.cohort;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.LeftOutCases;
import org.sideport.stats.Outcome;
import org.sideport.store.Workspace;
import org.sideport.workflow.DecisionFigures;
import org.sideport.workflow.MarkingPlan;
import org.sideport.workflow.PlanMarking;
import org.sideport.workflow.progress.PlanCharts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "plan",
        sortOptions = false,
        description = {
            "How many cases of a trainee must be marked by how many assessors until a decision is sure enough (D-study"
                    + " on",
            "the unit's own marks), and the minutes that takes; marking times are not recorded: say yours by"
                    + " --minutes.",
            "Example: sideport cohort plan --wish 0.80 --minutes 15 --json"
        })
final class CohortPlanCommand implements Callable<Integer> {

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
            names = "--wish",
            paramLabel = "W",
            defaultValue = "0.80",
            description = "Coefficient Φ to reach; default: ${DEFAULT-VALUE}.")
    double wish = 0.80;

    @Option(
            names = "--minutes",
            paramLabel = "MIN",
            defaultValue = "15",
            description = "Minutes of one assessor for one case; default: ${DEFAULT-VALUE}.")
    double minutes = 15;

    @Mixin
    private ChartOptions charts = new ChartOptions();

    CohortPlanCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            MarkingPlan plan = new PlanMarking(workspace).show(rubric, version, wish, minutes);
            PlanCharts drawn = new PlanCharts(charts.words());
            List<Chart> all = drawn.all(plan);
            List<String> files = charts.write(all);
            if (console.isJson()) {
                Map<String, @Nullable Object> json = json(plan);
                json.put("says", drawn.sentence(plan));
                json.put("left_out", LeftOutCases.json(plan.leftOut()));
                json.put("files", files);
                console.printJson(json);
            } else {
                console.say(drawn.sentence(plan));
                drawn.standing(plan).forEach(console::say);
                drawn.meanings().forEach(console::say);
                charts.print(List.of(), files, console);
                LeftOutCases.say(plan.leftOut(), console);
            }
        }
        return 0;
    }

    private static Map<String, @Nullable Object> json(MarkingPlan plan) {
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("rubric", plan.rubric().id());
        json.put("rubric_version", plan.rubric().version());
        json.put("wish", plan.wish());
        json.put("minutes_each", plan.minutesEach());
        if (plan.found() instanceof Outcome.Refused<MarkingPlan.Found> refused) {
            json.put("refused", DecisionFigures.refusal(refused.refusal()));
            return json;
        }
        MarkingPlan.Found found = plan.found().orElseThrow();
        json.put("refused", null);
        json.put("plans", DecisionFigures.more(found.plans()));
        json.put(
                "curve",
                found.curve().stream()
                        .map(p -> Json.object(
                                "cases", p.cases(),
                                "assessors_each", p.assessorsEach(),
                                "phi", p.phi(),
                                "g", p.g(),
                                "minutes", p.minutes()))
                        .toList());
        json.put("study", DecisionFigures.study(found.study()));
        return json;
    }
}
