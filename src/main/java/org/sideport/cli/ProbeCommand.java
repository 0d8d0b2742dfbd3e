package org.sideport.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.Damage;
import org.sideport.media.MediaWarning;
import org.sideport.media.NaturalOrder;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import org.sideport.model.Segment;
import org.sideport.model.SegmentJoin;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.RecordingPreview;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "probe",
        description = {
            "Says what video files are, as one recording: measured, not believed.",
            "Example: sideport probe part1.mp4 part2.mp4",
            "",
            "Of several files it also says whether one goes on where the other ends, whether time was lost or the recorder"
                    + " stopped between them, and whether the clocks or pictures inside contradict their order."
        })
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
        RecordingPreview preview = ImportRecording.probe(
                keepOrder ? files : NaturalOrder.sorted(files), console.frameIndexes(), console.progress());
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
        preview.joins().forEach(join -> say(join, preview.segments()));
        preview.warnings().forEach(w -> console.say("Warning: " + w.text()));
        preview.reminders().forEach(console::say);
        return 0;
    }

    private void say(SegmentJoin join, List<Segment> segments) {
        Long gap = join.gapUs();
        String length = gap == null
                ? ""
                : " (about " + MediaTime.ofMicros(Math.abs(gap)).toClockText() + ")";
        String kind =
                switch (join.kind()) {
                    case CONTINUOUS ->
                        join.overlapUs() > 0 ? "the second repeats the end of the first" + length : "goes on";
                    case LOST -> "something was lost" + length;
                    case PAUSED -> "the recorder was stopped" + length;
                    case UNKNOWN -> "not known whether something is missing";
                };
        console.say("From " + segments.get(join.before()).file().getFileName() + " to "
                + segments.get(join.after()).file().getFileName() + ": " + kind);
        join.evidence().forEach(evidence -> console.say("  " + evidence.text()));
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
                preview.continuous(),
                "segments",
                segments,
                "joins",
                preview.joins().stream().map(ProbeCommand::view).toList(),
                "damage",
                preview.damage().stream().map(ProbeCommand::view).toList(),
                "proposed_order",
                preview.proposedOrder().isEmpty()
                        ? null
                        : preview.proposedOrder().stream().map(Path::toString).toList(),
                "warnings",
                warnings(preview.warnings()));
    }

    private static Map<String, @Nullable Object> view(SegmentJoin join) {
        List<Object> evidence = new ArrayList<>();
        for (SegmentJoin.Evidence one : join.evidence()) {
            evidence.add(Json.object("source", one.source().id(), "gap_us", one.gapUs(), "text", one.text()));
        }
        return Json.object(
                "before", join.before(),
                "after", join.after(),
                "kind", join.kind().id(),
                "gap_us", join.gapUs(),
                "overlap_us", join.overlapUs(),
                "evidence", evidence);
    }

    private static Map<String, @Nullable Object> view(Damage damage) {
        return Json.object(
                "segment", damage.segment(),
                "from_us", damage.fromUs(),
                "to_us", damage.toUs(),
                "spoiled_to_us", damage.spoiledToUs(),
                "packets", damage.packets(),
                "text", damage.text());
    }

    static List<Object> warnings(List<MediaWarning> warnings) {
        List<Object> views = new ArrayList<>();
        for (MediaWarning w : warnings) {
            views.add(Json.object("code", w.code().id(), "text", w.text(), "segment", w.segment(), "at_us", w.atUs()));
        }
        return views;
    }
}
