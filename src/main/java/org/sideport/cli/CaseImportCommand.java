package org.sideport.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.model.Plural;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.ImportCases;
import org.sideport.workflow.ImportSheet;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "import",
        description = {
            "Takes in the cases of a sheet (XLSX or CSV), one a row, with their files: all of them, or none if any row"
                    + " has a fault.",
            "The first row names the columns: code, trainee, date; and, as far as known, procedure, files (; between"
                    + " several), consent, consent_purposes, consent_by, consent_date, review_by, and descriptors by id.",
            "Ends with 1 if rows have faults; each is told by row and column.",
            "",
            "Example: sideport case import list.xlsx --dry-run"
        })
final class CaseImportCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "SHEET", description = "XLSX (its first sheet) or CSV (UTF-8; comma, semicolon or tab).")
    Path sheet = Path.of("");

    @Option(names = "--dry-run", description = "Only say what would happen.")
    boolean dryRun;

    @Option(names = "--good-rows", description = "Take the rows without a fault, and leave out the others.")
    boolean goodRows;

    CaseImportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            ImportSheet job = new ImportSheet(workspace, Day.today());
            ImportSheet.Plan plan = job.plan(sheet, console.progress());
            boolean store = !dryRun && !plan.good().isEmpty() && (plan.faults().isEmpty() || goodRows);
            List<SurgicalCase> stored = store ? job.store(plan, goodRows) : List.of();
            if (console.isJson()) {
                printJson(plan, stored);
            } else {
                print(plan, stored);
            }
            return plan.faults().isEmpty() ? 0 : CommandTree.FINDING;
        }
    }

    private void printJson(ImportSheet.Plan plan, List<SurgicalCase> stored) {
        console.printJson(Json.object(
                "sheet",
                plan.sheet().toString(),
                "rows",
                plan.rows(),
                "good_rows",
                plan.good().size(),
                "dry_run",
                dryRun,
                "stored",
                stored.stream().map(SurgicalCase::code).toList(),
                "cases",
                plan.good().stream().map(CaseImportCommand::view).toList(),
                "faults",
                plan.faults().stream()
                        .map(f -> Json.object(
                                "row", f.row(), "column", f.column(), "what", f.what(), "remedy", f.remedy()))
                        .toList()));
    }

    private static Object view(ImportCases.Looked looked) {
        SurgicalCase one = looked.surgicalCase();
        return Json.object(
                "place",
                looked.draft().place(),
                "case",
                one == null ? null : CaseViews.sheet(one),
                "files",
                looked.draft().files().stream().map(Path::toString).toList(),
                "warnings",
                looked.warnings().stream().map(w -> w.text()).toList());
    }

    private void print(ImportSheet.Plan plan, List<SurgicalCase> stored) {
        for (ImportCases.Looked one : plan.good()) {
            var details = one.draft().details();
            console.say(one.draft().place() + ": " + details.code() + ", " + details.trainee() + ", " + details.date()
                    + ", "
                    + (one.draft().files().isEmpty()
                            ? "no recording"
                            : Plural.of(one.draft().files().size(), "file")));
            one.warnings().forEach(w -> console.note("Warning, " + one.draft().place() + ": " + w.text()));
        }
        plan.faults().forEach(f -> console.note("Fault, " + f.text()));
        String good = Plural.of(plan.good().size(), "case") + " of " + Plural.of(plan.rows(), "row");
        if (dryRun) {
            console.say(good + " can be taken in. Nothing was changed.");
        } else if (stored.isEmpty()) {
            console.say("Nothing was taken in: " + Plural.of(plan.faults().size(), "fault")
                    + ". Mend the sheet, or take the good rows with --good-rows.");
        } else {
            console.say("Took in " + Plural.of(stored.size(), "case") + " of " + Plural.of(plan.rows(), "row") + ".");
        }
    }
}
