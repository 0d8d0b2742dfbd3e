package org.sideport.cli.assign;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.RubricOption;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.agreement.LimitsOfAgreement;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.SelfAndAssessor;
import org.sideport.workflow.assign.SelfAndAssessor.CaseGap;
import org.sideport.workflow.assign.SelfAndAssessor.OverTime;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "calibration",
        description = {
            "How a trainee judges oneself over time: own marks less the assessors', case by case, with the mean's"
                    + " limits and the range in which most gaps lie.",
            "Example: sideport rate calibration --trainee T03 --json"
        })
final class RateCalibrationCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--trainee", paramLabel = "T", required = true, description = "Code of the trainee.")
    String trainee;

    @Mixin
    RubricOption rubric = new RubricOption();

    RateCalibrationCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            OverTime over = new SelfAndAssessor(workspace).overTime(trainee, rubric.id());
            LimitsOfAgreement agreement = over.agreement();
            if (console.isJson()) {
                console.printJson(Json.object(
                        "trainee",
                        trainee,
                        "rubric",
                        rubric.id(),
                        "cases",
                        over.cases().stream()
                                .map(c -> Json.object(
                                        "case", c.caseCode(),
                                        "date", c.date().toString(),
                                        "self_share", c.self(),
                                        "assessor_share", c.assessor(),
                                        "gap", c.gap(),
                                        "assessors", c.assessors(),
                                        "shared_items", c.items()))
                                .toList(),
                        "n",
                        over.cases().size(),
                        "mean_gap",
                        agreement == null ? null : AssignViews.of(agreement.bias()),
                        "sd",
                        agreement == null ? null : agreement.sd(),
                        "lower",
                        agreement == null ? null : agreement.lower().value(),
                        "upper",
                        agreement == null ? null : agreement.upper().value(),
                        "why_not",
                        over.why(),
                        "warnings",
                        over.warnings()));
                return 0;
            }
            if (!over.cases().isEmpty()) {
                TextTable table = new TextTable("Case", "Date", ">Self", ">Assessors", ">Gap", ">n");
                for (CaseGap one : over.cases()) {
                    table.row(
                            one.caseCode(),
                            one.date().toString(),
                            percent(one.self()),
                            percent(one.assessor()),
                            AssignViews.signed(one.gap()),
                            String.valueOf(one.assessors()));
                }
                table.print(console::say);
            }
            if (agreement != null) {
                console.say("Mean gap " + AssignViews.text(agreement.bias()) + "; most gaps lie between "
                        + AssignViews.signed(agreement.lower().value()) + " and "
                        + AssignViews.signed(agreement.upper().value()) + ".");
            } else {
                console.say("No limits: " + over.why() + ".");
            }
            over.warnings().forEach(console::note);
        }
        return 0;
    }

    private static String percent(double share) {
        return String.format(java.util.Locale.ROOT, "%.0f %%", share * 100);
    }
}
