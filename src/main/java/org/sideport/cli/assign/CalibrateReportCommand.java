package org.sideport.cli.assign;

import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.RubricOption;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Estimate;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.CalibrationSet;
import org.sideport.workflow.assign.CalibrationSet.Compared;
import org.sideport.workflow.assign.CalibrationSet.Report;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "report",
        description = {
            "Severity and agreement of assessors on cases with reference marks. Severity above 0: the assessor gives"
                    + " less than the reference, as a share of the applicable maximum.",
            "Example: sideport calibrate report --json"
        })
final class CalibrateReportCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    RubricOption rubric = new RubricOption();

    @Option(names = "--items", description = "By item too.")
    boolean items;

    CalibrateReportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Report report = new CalibrationSet(workspace, Day.clock()).report(rubric.id());
            if (console.isJson()) {
                console.printJson(Json.object(
                        "rubric", rubric.id(),
                        "reference_cases", report.references(),
                        "assessors",
                                report.assessors().stream()
                                        .map(CalibrateReportCommand::json)
                                        .toList(),
                        "warnings", report.warnings()));
                return 0;
            }
            if (report.assessors().isEmpty()) {
                console.say("Nobody has signed marks of a case with reference marks on " + rubric.id() + " ("
                        + report.references() + " with reference marks).");
                return 0;
            }
            TextTable table = new TextTable("Assessor", ">Cases", ">Severity", ">Alike", ">Within one level", ">Items");
            for (Compared one : report.assessors()) {
                Estimate severity = one.severity();
                table.row(
                        one.assessor(),
                        String.valueOf(one.cases()),
                        severity == null ? "too few" : AssignViews.text(severity),
                        share(one.exact(), one.items()),
                        share(one.withinOne(), one.items()),
                        String.valueOf(one.items()));
            }
            table.print(console::say);
            if (items) {
                report.assessors().forEach(this::sayItems);
            }
            report.warnings().forEach(console::note);
        }
        return 0;
    }

    private void sayItems(Compared one) {
        console.say("");
        TextTable table = new TextTable("Item (" + one.assessor() + ")", ">n", ">Alike", ">Within one", ">Mean levels");
        one.byItem()
                .forEach(i -> table.row(
                        i.title(),
                        String.valueOf(i.n()),
                        String.valueOf(i.exact()),
                        String.valueOf(i.withinOne()),
                        AssignViews.signed(i.meanLevels())));
        table.print(console::say);
    }

    private static String share(int part, int whole) {
        return whole == 0 ? "–" : String.format(Locale.ROOT, "%.0f %%", 100.0 * part / whole);
    }

    private static Map<String, @Nullable Object> json(Compared one) {
        return Json.object(
                "assessor", one.assessor(),
                "cases", one.cases(),
                "severity", AssignViews.of(one.severity()),
                "why_not", one.why(),
                "items", one.items(),
                "exact", one.exact(),
                "within_one_level", one.withinOne(),
                "by_item",
                        one.byItem().stream()
                                .map(i -> Json.object(
                                        "item", i.item(),
                                        "n", i.n(),
                                        "exact", i.exact(),
                                        "within_one_level", i.withinOne(),
                                        "mean_levels", i.meanLevels()))
                                .toList());
    }
}
