package org.sideport.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Plural;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.RecordingPreview;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "add", description = "Adds a case, with the files of its recording as one.")
final class CaseAddCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE", arity = "0..*", description = "The files of the recording, if there is one.")
    List<Path> files = List.of();

    @Option(
            names = "--code",
            paramLabel = "C",
            required = true,
            description = "The case's code; never a patient's name or number.")
    String code;

    @Option(names = "--trainee", paramLabel = "T", required = true, description = "Code of the trainee.")
    String trainee;

    @Option(
            names = "--date",
            paramLabel = "ISO",
            required = true,
            description = "Day of the operation, such as 2026-03-09.")
    LocalDate date;

    @Option(
            names = "--procedure",
            paramLabel = "ID",
            defaultValue = "phaco",
            description = "Procedure; default: ${DEFAULT-VALUE}.")
    String procedure;

    @Option(
            names = "--descriptor",
            paramLabel = "K=V",
            description = "Case descriptor, such as nuclear_grade=3; may be repeated.")
    Map<String, String> descriptors = new LinkedHashMap<>();

    @Option(names = "--keep-order", description = "Take the files in the order given, not by name.")
    boolean keepOrder;

    @Option(names = "--accept-cut-short", description = "Take what can be read of a file that ends too early.")
    boolean acceptCutShort;

    CaseAddCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        NewCase details = new NewCase(code, trainee, date, procedure, descriptors);
        try (Workspace workspace = console.open()) {
            ImportRecording job = new ImportRecording(workspace);
            RecordingPreview preview = null;
            if (!files.isEmpty()) {
                preview = job.preview(files, console.progress());
                if (keepOrder) {
                    preview = job.reorder(
                            preview,
                            files.stream()
                                    .map(f -> f.toAbsolutePath().normalize())
                                    .toList());
                }
            }
            SurgicalCase added = job.addCase(details, preview, acceptCutShort);
            if (console.isJson()) {
                Map<String, ?> recording = preview == null ? null : ProbeCommand.view(preview);
                console.printJson(Json.object(
                        "case", added.code(),
                        "trainee", added.trainee(),
                        "date", added.date().toString(),
                        "procedure", added.procedure(),
                        "descriptors", added.descriptors(),
                        "recording", recording));
            } else if (preview == null) {
                console.say("Added case " + added.code() + " without a recording.");
            } else {
                console.say("Added case " + added.code() + ": "
                        + preview.recording().duration().toClockText() + " in "
                        + Plural.of(preview.segments().size(), "file") + ", in this order:");
                preview.segments().forEach(s -> console.say("  " + s.file()));
                preview.warnings().forEach(w -> console.note("Warning: " + w.text()));
                preview.reminders().forEach(console::note);
            }
        }
        return 0;
    }
}
