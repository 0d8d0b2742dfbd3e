package org.sideport.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.MediaWarning;
import org.sideport.media.NaturalOrder;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import org.sideport.model.Segment;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.RecordingPreview;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "probe", description = "Says what video files are, as one recording: measured, not believed.")
final class ProbeCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "The files of one operation.")
    List<Path> files;

    @Option(names = "--keep-order", description = "Take the files in the order given, not by name.")
    boolean keepOrder;

    ProbeCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        RecordingPreview preview =
                ImportRecording.probe(keepOrder ? files : NaturalOrder.sorted(files), console.progress());
        if (console.isJson()) {
            console.printJson(view(preview));
            return 0;
        }
        for (Segment s : preview.segments()) {
            console.say(s.file().getFileName() + "  "
                    + MediaTime.ofMicros(s.durationUs()).toClockText() + "  "
                    + s.frames() + " frames  " + s.codec() + " " + s.width() + "×" + s.height() + "  "
                    + Words.rate(s) + (s.audio() ? "  with sound" : ""));
        }
        console.say("Recording: " + preview.recording().duration().toClockText() + " in "
                + Plural.of(preview.segments().size(), "file"));
        preview.warnings().forEach(w -> console.say("Warning: " + w.text()));
        preview.reminders().forEach(console::say);
        return 0;
    }

    static Map<String, @Nullable Object> view(RecordingPreview preview) {
        List<Object> segments = new ArrayList<>();
        for (Segment s : preview.segments()) {
            segments.add(Json.object(
                    "file", s.file().toString(),
                    "sha256", s.sha256(),
                    "size", s.size(),
                    "duration_us", s.durationUs(),
                    "frames", s.frames(),
                    "first_us", s.firstUs(),
                    "fps_num", s.fpsNum(),
                    "fps_den", s.fpsDen(),
                    "variable_rate", s.variableRate(),
                    "codec", s.codec(),
                    "width", s.width(),
                    "height", s.height(),
                    "sample_aspect", s.sampleAspect(),
                    "rotation", s.rotation(),
                    "interlaced", s.interlaced(),
                    "audio", s.audio(),
                    "identity_tags", s.identityTags()));
        }
        return Json.object(
                "duration_us",
                preview.recording().duration().micros(),
                "continuous",
                // With one file nothing can be missing between; whether several join without loss is not measured yet.
                preview.segments().size() == 1 ? (Object) true : null,
                "segments",
                segments,
                "warnings",
                warnings(preview.warnings()));
    }

    static List<Object> warnings(List<MediaWarning> warnings) {
        List<Object> views = new ArrayList<>();
        for (MediaWarning w : warnings) {
            views.add(Json.object("code", w.code().id(), "text", w.text(), "segment", w.segment(), "at_us", w.atUs()));
        }
        return views;
    }
}
