package org.sideport.cli.assign;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.RubricOption;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.SelfAndAssessor;
import org.sideport.workflow.assign.SelfAndAssessor.Beside;
import org.sideport.workflow.assign.SelfAndAssessor.Sides;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "gap",
        description = {
            "The trainee's own marks beside the assessors', once both are signed. A gap above 0: the trainee thinks"
                    + " better of it.",
            "Example: sideport rate gap --case C-12"
        })
final class RateGapCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Mixin
    RubricOption rubric = new RubricOption();

    RateGapCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Sides sides = new SelfAndAssessor(workspace).of(code, rubric.id());
            if (console.isJson()) {
                console.printJson(Json.object(
                        "case", sides.caseCode(),
                        "trainee", sides.trainee().isEmpty() ? null : sides.trainee(),
                        "rubric", rubric.id(),
                        "state", sides.state().name().toLowerCase(java.util.Locale.ROOT),
                        "assessors",
                                sides.besides().stream()
                                        .map(RateGapCommand::json)
                                        .toList()));
                return 0;
            }
            switch (sides.state()) {
                case BLIND -> console.say(code + " is marked blind: the trainee's own marks are not shown.");
                case NO_SELF ->
                    console.say(
                            "There are no own marks of the trainee to be shown. They must be signed, and yours too.");
                case NO_ASSESSOR -> console.say("No assessor has signed marks of " + code + " on this rubric yet.");
                case BOTH -> sides.besides().forEach(beside -> say(sides, beside));
            }
        }
        return 0;
    }

    private static Object json(Beside beside) {
        return Json.object(
                "assessor", beside.assessor(),
                "self_share", beside.gap().firstShare(),
                "assessor_share", beside.gap().secondShare(),
                "share_gap", beside.gap().shareGap(),
                "shared_items", beside.gap().shared(),
                "exact", beside.gap().exact(),
                "within_one_level", beside.gap().withinOne(),
                "items",
                        beside.gap().items().stream()
                                .map(i -> AssignViews.of(i, "self", "assessor"))
                                .toList());
    }

    private void say(Sides sides, Beside beside) {
        console.say("Case " + sides.caseCode() + ", " + sides.trainee() + " and " + beside.assessor() + ":");
        TextTable table = new TextTable("Item", ">Self", ">Assessor", ">Gap");
        beside.gap()
                .items()
                .forEach(i -> table.row(
                        i.title(),
                        AssignViews.points(i.first()),
                        AssignViews.points(i.second()),
                        i.gap() == null
                                ? "–"
                                : String.format(java.util.Locale.ROOT, "%+d", i.gap())
                                        .replace('-', '−')));
        table.print(console::say);
        console.say("Gap " + AssignViews.signed(beside.gap().shareGap()) + " of the maximum on "
                + Plural.of(beside.gap().shared(), "item") + " that both marked, "
                + beside.gap().exact()
                + " of them alike, " + beside.gap().withinOne() + " within one level.");
    }
}
