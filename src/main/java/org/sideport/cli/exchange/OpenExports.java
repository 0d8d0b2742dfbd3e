package org.sideport.cli.exchange;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.model.Rubric;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.ExportChapters;
import org.sideport.workflow.exchange.ExportOpen;
import org.sideport.workflow.exchange.ExportStatements;
import org.sideport.workflow.exchange.OpenFormat;
import org.sideport.workflow.exchange.RubricExchange;

/** Runs exports in published formats; what a format drops goes to standard error. */
final class OpenExports {

    static final String CHAPTERS = "chapters";
    static final String XAPI = "xapi";
    static final String CASE = "case";

    private final Console console;
    private final OpenOptions options;
    private final AskConsent ask;

    OpenExports(Console console, OpenOptions options, AskConsent ask) {
        this.console = console;
        this.options = options;
        this.ask = ask;
    }

    /**
     * @param format one of ours, not "bundle"
     * @param out {@code null} if none was named
     */
    void run(String format, String code, @Nullable Path out, boolean replace) {
        try (Workspace workspace = console.open()) {
            ask.before(workspace, code, format.equals(XAPI) ? ConsentPurpose.ASSESSMENT : options.purpose());
            switch (format) {
                case CHAPTERS -> chapters(workspace, code, named(out), replace);
                case XAPI -> statements(workspace, code, out, replace);
                default -> file(workspace, OpenFormat.parse(format), code, free(out, replace));
            }
        }
    }

    private static Path named(@Nullable Path out) {
        if (out == null) {
            throw new InputException("it is not said where to write", null, "name a file or folder at the end");
        }
        return out;
    }

    private static Path free(@Nullable Path out, boolean replace) {
        Path file = named(out);
        if (Files.exists(file) && !replace) {
            throw new InputException(
                    "the file exists already", file.toString(), "choose another name, or add --replace");
        }
        return file;
    }

    private void file(Workspace workspace, OpenFormat format, String code, Path out) {
        ExportOpen.Exported done = new ExportOpen(workspace, Clock.systemUTC())
                .export(new ExportOpen.Wanted(code, options.annotator, format, options.frames, options.purpose()), out);
        tell(done.dropped(), done.warnings());
        if (console.isJson()) {
            console.printJson(Json.object(
                    "file", done.file().toString(),
                    "format", format.id(),
                    "sha256", done.sha256(),
                    "dropped", done.dropped(),
                    "warnings", done.warnings()));
        } else {
            console.say("Wrote " + done.file() + ".");
        }
    }

    private void tell(List<String> dropped, List<String> warnings) {
        dropped.forEach(console::note);
        ask.tell(warnings);
    }

    private void chapters(Workspace workspace, String code, Path folder, boolean replace) {
        ExportChapters.Exported done = new ExportChapters(workspace)
                .export(
                        new ExportChapters.Wanted(code, options.annotator, !options.noSound, options.purpose()),
                        folder,
                        replace,
                        console.progress());
        tell(done.dropped(), done.warnings());
        if (done.roundingUs() > 0) {
            console.note("The container moved times of chapters by up to " + done.roundingUs() + " µs.");
        }
        if (console.isJson()) {
            console.printJson(Json.object(
                    "files", done.files().stream().map(Path::toString).toList(),
                    "format", CHAPTERS,
                    "chapters", done.chapters(),
                    "rounding_us", done.roundingUs(),
                    "dropped", done.dropped(),
                    "warnings", done.warnings()));
        } else {
            done.files().forEach(file -> console.say("Wrote " + file + "."));
        }
    }

    private void statements(Workspace workspace, String code, @Nullable Path out, boolean replace) {
        String home = options.homePage;
        if (home == null) {
            throw new InputException(
                    "it is not said under which address your codes are known", null, "add --home-page");
        }
        ExportStatements job = new ExportStatements(workspace);
        String endpoint = options.endpoint;
        if (endpoint != null && out != null) {
            throw new InputException(
                    "both a file and a store are named", out.toString(), "leave out the file, or --endpoint");
        }
        ExportStatements.Exported done = endpoint == null
                ? job.write(code, home, free(out, replace))
                : job.send(code, home, endpoint, System.getenv("SIDEPORT_XAPI_LOGIN"), console.progress());
        tell(done.dropped(), done.warnings());
        if (console.isJson()) {
            console.printJson(Json.object(
                    "file",
                    out == null ? null : out.toAbsolutePath().toString(),
                    "endpoint",
                    endpoint,
                    "format",
                    XAPI,
                    "statements",
                    done.statements(),
                    "dropped",
                    done.dropped(),
                    "warnings",
                    done.warnings()));
        } else {
            console.say((endpoint == null ? "Wrote " : "Sent ") + Plural.of(done.statements(), "statement") + " to "
                    + (endpoint == null ? out : endpoint) + ".");
        }
    }

    /** A rubric as a CASE package. */
    void rubric(String id, @Nullable Path out, boolean replace) {
        Path file = free(out, replace);
        try (Workspace workspace = console.open()) {
            Rubric rubric = new RubricExchange(workspace, Clock.systemUTC()).export(id, file);
            console.note("CASE has no time of a rubric's last change: that of this export stands there.");
            if (console.isJson()) {
                console.printJson(Json.object(
                        "file", file.toAbsolutePath().toString(),
                        "format", CASE,
                        "rubric", rubric.id(),
                        "version", rubric.version()));
            } else {
                console.say("Wrote " + rubric.id() + " " + rubric.version() + " to " + file + ".");
            }
        }
    }
}
