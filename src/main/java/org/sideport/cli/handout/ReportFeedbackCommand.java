package org.sideport.cli.handout;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.MaskArea;
import org.sideport.store.Workspace;
import org.sideport.workflow.handout.WriteFeedback;
import org.sideport.workflow.handout.WriteFeedback.Wanted;
import org.sideport.workflow.handout.WriteFeedback.Written;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "feedback",
        sortOptions = false,
        description = {
            "The feedback on a case for the trainee to take away: signed marks, comments, times, the recording.",
            "One page that any browser opens without a network, with its media in the folder NAME-media beside it.",
            "Example: sideport report feedback --case D-017 D-017.html"
        })
final class ReportFeedbackCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code = "";

    @Option(
            names = "--language",
            paramLabel = "en|de",
            defaultValue = "en",
            description = "Of the page; default: ${DEFAULT-VALUE}.")
    String language = "en";

    @Option(names = "--without-recording", description = "Marks, comments and times only.")
    boolean withoutRecording;

    @Option(
            names = "--with-sound",
            description = "Keep the sound of the recording, in which people may be heard; else it is left out.")
    boolean withSound;

    @Option(
            names = "--mask",
            paramLabel = "X,Y,W,H",
            description = "Hide an area of the picture, as for the command mask; as often as there are areas.")
    List<String> masks = new ArrayList<>();

    @Parameters(paramLabel = "OUT.html", description = "Or OUT.pdf, on paper: with pictures of what was drawn on.")
    Path out;

    ReportFeedbackCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        List<MaskArea> areas = masks.stream().map(MaskArea::parse).toList();
        try (Workspace workspace = console.open()) {
            Written written = new WriteFeedback(workspace)
                    .write(new Wanted(code, language, !withoutRecording, withSound, areas), out, console.progress());
            written.warnings().forEach(w -> console.err().println("sideport: " + w));
            if (console.isJson()) {
                console.printJson(Json.object(
                        "file",
                        written.file().toString(),
                        "media",
                        written.media() == null ? null : written.media().toString(),
                        "encoded",
                        written.encoded(),
                        "marks",
                        written.marks(),
                        "comments",
                        written.comments(),
                        "warnings",
                        written.warnings()));
            } else {
                console.say("Wrote " + written.file() + ".");
                if (written.media() != null) {
                    console.say("Its media lie in " + written.media() + "; keep both together.");
                }
            }
        }
        return 0;
    }
}
