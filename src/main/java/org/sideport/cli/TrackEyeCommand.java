package org.sideport.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.NaturalOrder;
import org.sideport.media.trace.TraceCsv;
import org.sideport.media.track.EyeEdge;
import org.sideport.media.track.EyeSample;
import org.sideport.media.track.EyeSummary;
import org.sideport.media.track.EyeTrack;
import org.sideport.media.track.EyeTracker;
import org.sideport.media.track.EyeView;
import org.sideport.media.track.TrackCsv;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "eye",
        description = {
            "Finds limbus and pupil over a recording: how well the eye is centred, and where zoom or focus change.",
            "Example: sideport track eye part1.mp4 part2.mp4 --hz 1 --csv eye.csv",
            "",
            "Where no limbus is found it says so and why; nothing is filled in. What it finds is a proposal for a"
                    + " person to look at. A centred, sharp picture is good microscope work, not the whole of it:"
                    + " formative use only."
        })
final class TrackEyeCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "The files of one operation.")
    List<Path> files;

    @Option(
            names = "--hz",
            paramLabel = "N",
            defaultValue = "1",
            description = "Moments a second, 0.05 to 30; by default ${DEFAULT-VALUE}.")
    double hz;

    @Option(names = "--from", paramLabel = "TIME", description = "Start, seconds or h:mm:ss.sss; by default the start.")
    @Nullable
    String from;

    @Option(names = "--to", paramLabel = "TIME", description = "End; by default the end of the recording.")
    @Nullable
    String to;

    @Option(
            names = "--limit",
            paramLabel = "SHARE",
            defaultValue = "0.15",
            description = "The eye counts as centred up to this distance from the middle, as a share of the picture's"
                    + " shorter side; by default ${DEFAULT-VALUE}.")
    double limit;

    @Option(names = "--csv", paramLabel = "CSV", description = "Write this new file, one moment a row.")
    @Nullable
    Path csv;

    @Option(names = "--replace", description = "Write over the CSV file if it is there.")
    boolean replace;

    @Option(names = "--keep-order", description = "Take the files in the order given, not by name.")
    boolean keepOrder;

    TrackEyeCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (!(limit > 0 && limit <= 1)) {
            throw new InputException(limit + " is no share", "--limit", "choose a number above 0, up to 1");
        }
        if (csv != null) {
            TraceCsv.requireFree(csv, replace);
        }
        List<Path> ordered = keepOrder ? files : NaturalOrder.sorted(files);
        MediaTime start = from == null ? MediaTime.ZERO : MediaTime.parse(from);
        MediaTime end = to == null ? MediaTime.ofMicros(Long.MAX_VALUE) : MediaTime.parse(to);
        EyeTrack track = EyeTracker.track(ordered, hz, start, end, console.progress());
        EyeSummary summary = EyeSummary.of(track, limit);
        if (csv != null) {
            TrackCsv.write(track, csv, replace);
        }
        if (console.isJson()) {
            console.printJson(view(track, summary));
        } else {
            say(summary);
        }
        return 0;
    }

    private void say(EyeSummary s) {
        console.say("The limbus was found in " + s.found() + " of " + Plural.of(s.moments(), "moment") + ".");
        s.missing().entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .forEach(e -> console.say("  not found in " + Plural.of(e.getValue(), "moment") + ": "
                        + e.getKey().words()));
        if (s.found() > 0) {
            console.say(text(
                    "Median limbus diameter %.1f pixels, median distance from the middle %.1f %% of the shorter side.",
                    s.medianDiameter(), 100 * s.medianOffset()));
            changes("zoom", "limbus", s.zoomChanges());
            changes("focus", "sharpness", s.focusChanges());
        }
        if (csv != null) {
            console.say("Written: " + csv);
        }
        console.say(
                s.found() == 0
                        ? "No eye was found, so nothing can be said about centring."
                        : text(
                                "The eye was centred within %.0f %% for %.0f %% of the time in which it was found. For"
                                        + " talking it over, not for passing or failing.",
                                100 * s.limit(), 100 * s.centredShare()));
    }

    private void changes(String what, String of, List<EyeSummary.Change> changes) {
        if (changes.isEmpty()) {
            console.say("No lasting change of " + what + ".");
        }
        for (EyeSummary.Change c : changes) {
            console.say(text(
                    "  %s  change of %s: %s %.0f to %.0f (times %.2f)",
                    MediaTime.ofMicros(c.timeUs()).toClockText(), what, of, c.before(), c.after(), c.ratio()));
        }
    }

    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    private static Object view(EyeTrack track, EyeSummary s) {
        double stretch = track.scale().stretch();
        List<Object> samples = new ArrayList<>();
        for (EyeSample sample : track.samples()) {
            EyeView view = sample.view();
            EyeView.Missing missing = view.missing();
            samples.add(Json.object(
                    "time_us", sample.timeUs(),
                    "missing", missing == null ? null : missing.id(),
                    "limbus", edge(view.limbus(), stretch),
                    "pupil", edge(view.pupil(), stretch),
                    "offset", number(EyeSummary.offset(track, sample)),
                    "sharpness", view.sharpness()));
        }
        Map<String, @Nullable Object> missing = Json.object();
        s.missing().entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .forEach(e -> missing.put(e.getKey().id(), e.getValue()));
        return Json.object(
                "width", track.scale().width(),
                "height", track.scale().height(),
                "end_us", track.endUs(),
                "moments", s.moments(),
                "found", s.found(),
                "missing", missing,
                "median_limbus_diameter_px", number(s.medianDiameter()),
                "median_offset", number(s.medianOffset()),
                "limit", s.limit(),
                "centred_share", number(s.centredShare()),
                "zoom_changes", changeViews(s.zoomChanges()),
                "focus_changes", changeViews(s.focusChanges()),
                "samples", samples);
    }

    private static List<Object> changeViews(List<EyeSummary.Change> changes) {
        List<Object> views = new ArrayList<>();
        changes.forEach(c -> views.add(Json.object("time_us", c.timeUs(), "before", c.before(), "after", c.after())));
        return views;
    }

    private static @Nullable Object edge(@Nullable EyeEdge edge, double stretch) {
        return edge == null
                ? null
                : Json.object(
                        "x", edge.ellipse().centreX() * stretch,
                        "y", edge.ellipse().centreY(),
                        "diameter_px", edge.diameter(),
                        "axis_ratio", edge.ellipse().axisRatio(),
                        "confidence", edge.confidence());
    }

    /** JSON has no word for what is no number. */
    static @Nullable Double number(double value) {
        return Double.isFinite(value) ? value : null;
    }
}
