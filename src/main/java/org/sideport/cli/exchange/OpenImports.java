package org.sideport.cli.exchange;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.CommentTone;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.ImportOpen;
import org.sideport.workflow.exchange.OpenFormat;
import org.sideport.workflow.exchange.RubricExchange;

/** Runs imports from published formats. */
final class OpenImports {

    private final Console console;
    private final OpenImportOptions options;
    private final String by;
    private final boolean dryRun;

    OpenImports(Console console, OpenImportOptions options, String by, boolean dryRun) {
        this.console = console;
        this.options = options;
        this.by = by;
        this.dryRun = dryRun;
    }

    /**
     * @param format {@code null} to go by the file's ending
     * @return false if it is a bundle, and nothing was done
     */
    boolean run(Path file, @Nullable String format) {
        if (format != null && format.equals(OpenExports.CASE)) {
            rubrics(file);
            return true;
        }
        if (format != null && format.equals("bundle")) {
            return false;
        }
        OpenFormat named = format == null ? ImportOpen.formatOf(file) : OpenFormat.parse(format);
        if (named == null) {
            return false;
        }
        tags(file, named);
        return true;
    }

    private void tags(Path file, OpenFormat format) {
        String code = options.code;
        if (code == null) {
            throw new InputException("it is not said which case the tags are of", file.toString(), "add --case");
        }
        ImportOpen.Wanted wanted =
                new ImportOpen.Wanted(code, by, format, options.replace, CommentTone.parse(options.tone));
        try (Workspace workspace = console.open()) {
            ImportOpen job = new ImportOpen(workspace);
            ImportOpen.Taken taken = dryRun ? job.look(file, wanted) : job.take(file, wanted);
            taken.notes().forEach(console::note);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "case", taken.code(),
                        "annotator", taken.annotator(),
                        "taken_in", !dryRun,
                        "phases", taken.phases(),
                        "events", taken.events(),
                        "comments", taken.comments(),
                        "comments_known", taken.same(),
                        "comments_kept", taken.kept(),
                        "notes", taken.notes()));
            } else {
                console.say((dryRun ? "Would take in " : "Took in ")
                        + Plural.of(taken.phases(), "phase") + ", "
                        + Plural.of(taken.events(), "event") + " and "
                        + Plural.of(taken.comments(), "comment") + " of case " + taken.code() + "; "
                        + Plural.of(taken.same(), "comment") + " known already.");
            }
        }
    }

    private void rubrics(Path file) {
        if (dryRun) {
            throw new InputException(
                    "rubrics cannot be looked at first", file.toString(), "take them in: nothing is written over");
        }
        try (Workspace workspace = console.open()) {
            List<RubricExchange.Taken> taken =
                    new RubricExchange(workspace, Clock.systemUTC()).take(file, options.procedure);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "rubrics",
                        taken.stream()
                                .map(t -> Json.object(
                                        "rubric", t.rubric().id(),
                                        "version", t.rubric().version(),
                                        "items", t.rubric().items().size(),
                                        "file", t.file().map(Path::toString).orElse(null)))
                                .toList()));
            } else {
                taken.forEach(
                        t -> console.say(t.rubric().id() + " " + t.rubric().version() + ", "
                                + Plural.of(t.rubric().items().size(), "item")
                                + t.file().map(f -> ": now in " + f).orElse(": here already, just so")));
            }
        }
    }
}
