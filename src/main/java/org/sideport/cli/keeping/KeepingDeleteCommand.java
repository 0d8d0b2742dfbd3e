package org.sideport.cli.keeping;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.consent.DeleteCase;
import org.sideport.workflow.consent.DeletionPlan;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "delete",
        description = {
            "Deletes a case for good, with its marks, comments and files in the workspace: where consent was refused"
                    + " or",
            "withdrawn, or its day has come. Without --yes it only says what would go; recordings that lie elsewhere"
                    + " are",
            "named for you to delete."
        })
final class KeepingDeleteCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "C", description = "Code of the case.")
    String code = "";

    @Option(names = "--by", paramLabel = "CODE", required = true, description = "Code of the person who confirms.")
    String by = "";

    @Option(names = "--yes", description = "Confirms: there is no way back.")
    boolean yes;

    KeepingDeleteCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            DeleteCase job = new DeleteCase(workspace);
            LocalDate today = Day.today();
            DeletionPlan plan = job.plan(code, today);
            if (!yes) {
                show(plan, null);
                return 0;
            }
            DeleteCase.Done done = job.delete(plan, by, today);
            show(done.plan(), done.deletion().id());
            // what is left to a person is a finding
            return done.plan().leavesWork() ? 1 : 0;
        }
    }

    private void show(DeletionPlan plan, @Nullable String number) {
        boolean gone = number != null;
        if (console.isJson()) {
            console.printJson(Json.object(
                    "case", plan.code(),
                    "kind", plan.kind().id(),
                    "deleted", gone,
                    "deletion", number,
                    "signed_ratings", plan.signed(),
                    "files", texts(plan.files()),
                    "elsewhere", texts(plan.elsewhere()),
                    "missing", texts(plan.missing()),
                    "shared", texts(plan.shared()),
                    "note", DeletionPlan.BEYOND));
            return;
        }
        console.say(
                gone
                        ? "Deleted, number " + number + " in the log."
                        : "Would be deleted (add --yes): case " + plan.code() + " with "
                                + Plural.of(plan.signed(), "signed rating") + ".");
        list(gone ? "Deleted files:" : "Files that would go:", plan.files());
        list("Outside the workspace, for you to delete:", plan.elsewhere());
        list("Not where it was last seen; delete it if it still exists:", plan.missing());
        list("Used by another case too, so it stays:", plan.shared());
        console.say(DeletionPlan.BEYOND);
    }

    private void list(String head, List<Path> files) {
        if (!files.isEmpty()) {
            console.say(head);
            files.forEach(file -> console.say("  " + file));
        }
    }

    private static List<String> texts(List<Path> files) {
        return files.stream().map(Path::toString).toList();
    }
}
