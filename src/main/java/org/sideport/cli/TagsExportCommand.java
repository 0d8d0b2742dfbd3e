package org.sideport.cli;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.report.TimedText;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import org.sideport.timing.TagTable;
import org.sideport.workflow.TagExchange;
import org.sideport.workflow.TagExchange.Exported;
import org.sideport.workflow.Vocabularies;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "export", description = "Writes tags to standard output.")
final class TagsExportCommand implements Callable<Integer> {

    /** Kinds of output. */
    enum Format {
        CSV,
        VTT,
        JSON
    }

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--annotator", paramLabel = "A", description = "Whose tags; needed where several tagged the case.")
    @Nullable
    String annotator;

    @Option(
            names = "--format",
            defaultValue = "csv",
            description = "${COMPLETION-CANDIDATES}; default: ${DEFAULT-VALUE}.")
    Format format;

    @Option(names = "--events", description = "Events instead of phases (CSV).")
    boolean events;

    TagsExportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws IOException {
        try (Workspace workspace = console.open()) {
            TagExchange job = new TagExchange(workspace);
            Exported exported = job.find(code, annotator);
            if (console.isJson() || format == Format.JSON) {
                console.printJson(view(exported));
            } else if (format == Format.VTT) {
                console.out()
                        .print(TimedText.webVtt(
                                new Vocabularies(workspace)
                                        .procedure(exported.surgicalCase().procedure()),
                                exported.tagging(),
                                exported.surgicalCase().recording()));
            } else {
                job.exportCsv(exported, events ? TagTable.Kind.EVENTS : TagTable.Kind.PHASES, console.out());
            }
            console.out().flush();
        }
        return 0;
    }

    private static Object view(Exported exported) {
        List<Object> phases = new ArrayList<>();
        for (PhaseSpan span : exported.tagging().spans()) {
            MediaTime end = span.end();
            Operator operator = span.operator();
            phases.add(Json.object(
                    "phase",
                    span.phase(),
                    "start_us",
                    span.start().micros(),
                    "end_us",
                    end == null ? null : end.micros(),
                    "start_confirmed",
                    exported.isConfirmed(Boundary.Kind.PHASE, span.start()),
                    "end_confirmed",
                    end == null ? null : exported.isConfirmed(Boundary.Kind.PHASE, end),
                    "operator",
                    operator == null ? null : operator.id()));
        }
        List<Object> points = new ArrayList<>();
        for (PointEvent event : exported.tagging().events()) {
            Severity severity = event.severity();
            points.add(Json.object(
                    "event", event.kind(),
                    "at_us", event.at().micros(),
                    "confirmed", exported.isConfirmed(Boundary.Kind.EVENT, event.at()),
                    "severity", severity == null ? null : severity.id(),
                    "note", event.note()));
        }
        return Json.object(
                "case", exported.surgicalCase().code(),
                "annotator", exported.annotator(),
                "style", exported.tagging().style().id(),
                "phases", phases,
                "events", points);
    }
}
