package org.sideport.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.media.NaturalOrder;
import org.sideport.media.trace.TraceCsv;
import org.sideport.media.track.MotionMeasures;
import org.sideport.media.track.MotionMeasures.Movement;
import org.sideport.media.track.MotionSettings;
import org.sideport.media.track.TipMeasures;
import org.sideport.media.track.TipPoint;
import org.sideport.media.track.TipTrack;
import org.sideport.media.track.TipTracker;
import org.sideport.media.track.TrackCsv;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "tip",
        description = {
            "Follows the tip of an instrument from where you point at it: path length, movements, smoothness.",
            "Example: sideport track tip part1.mp4 --at 3:20 --x 412 --y 233 --until 3:45 --csv tip.csv",
            "",
            "X and Y are measured on the picture that \"sideport frame\" writes for that time. A lost tip is said with"
                    + " its time and never filled in: point again there. Lengths are what the picture shows, without"
                    + " depth. Formative use only: economy of movement is not competence, and speed is not either."
        })
final class TrackTipCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "The files of one operation.")
    List<Path> files;

    @Option(
            names = "--at",
            paramLabel = "TIME",
            required = true,
            description = "When the tip is where you point: seconds or h:mm:ss.sss.")
    String at;

    @Option(names = "--x", paramLabel = "X", required = true, description = "Pixels from the left edge.")
    double x;

    @Option(names = "--y", paramLabel = "Y", required = true, description = "Pixels from the top edge.")
    double y;

    @Option(names = "--until", paramLabel = "TIME", description = "End; by default the end of the recording.")
    @Nullable
    String until;

    @Option(
            names = "--white-to-white",
            paramLabel = "MM",
            description = "The eye's white-to-white distance in mm, to give lengths in mm too.")
    @Nullable
    Double whiteToWhite;

    @Option(
            names = "--smoothing",
            paramLabel = "S",
            defaultValue = "0.2",
            description = "Window over which places are smoothed, seconds; by default ${DEFAULT-VALUE}.")
    double smoothing;

    @Option(
            names = "--threshold",
            paramLabel = "N",
            description =
                    "Speed from which the tip moves, pixels a second; by default a quarter of the limbus diameter, or"
                            + " 0.15 of the picture's height where no limbus is found.")
    @Nullable
    Double threshold;

    @Option(names = "--csv", paramLabel = "CSV", description = "Write the track to this new file, one frame a row.")
    @Nullable
    Path csv;

    @Option(names = "--replace", description = "Write over the CSV file if it is there.")
    boolean replace;

    @Option(names = "--keep-order", description = "Take the files in the order given, not by name.")
    boolean keepOrder;

    TrackTipCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        requirePositive(smoothing, "--smoothing");
        requirePositive(threshold == null ? 1 : threshold, "--threshold");
        requirePositive(whiteToWhite == null ? 1 : whiteToWhite, "--white-to-white");
        if (csv != null) {
            TraceCsv.requireFree(csv, replace);
        }
        List<Path> ordered = keepOrder ? files : NaturalOrder.sorted(files);
        MediaTime end = until == null ? MediaTime.ofMicros(Long.MAX_VALUE) : MediaTime.parse(until);
        TipTrack track = TipTracker.track(ordered, MediaTime.parse(at), x, y, end, console.progress());
        MotionSettings usual = TipMeasures.usualSettings(track);
        TipMeasures measures = TipMeasures.of(
                track,
                new MotionSettings(
                        smoothing,
                        threshold == null ? usual.threshold() : threshold,
                        usual.leastS(),
                        usual.leastRestS()));
        if (csv != null) {
            TrackCsv.write(track, csv, replace);
        }
        if (console.isJson()) {
            console.printJson(view(measures));
        } else {
            say(measures);
        }
        return 0;
    }

    private static void requirePositive(double value, String option) {
        if (!(value > 0 && Double.isFinite(value))) {
            throw new InputException(value + " does not do", option, "choose a number above 0");
        }
    }

    private void say(TipMeasures m) {
        TipTrack track = m.track();
        TipPoint first = track.points().get(0);
        TipPoint last = track.points().get(track.points().size() - 1);
        console.say("Followed over " + Plural.of(track.points().size(), "frame") + ", "
                + MediaTime.ofMicros(first.timeUs()).toClockText() + " to "
                + MediaTime.ofMicros(last.timeUs()).toClockText() + ".");
        MotionMeasures picture = m.inPicture();
        if (picture != null) {
            table(m, picture);
            console.say(text(
                    "Smoothed over %.2f s; a movement is faster than %.1f pixels a second for %.2f s or longer.",
                    m.settings().smoothingS(),
                    m.settings().threshold(),
                    m.settings().leastS()));
            if (m.toEye() == null) {
                console.say("The limbus was not found throughout, so nothing is given relative to the eye.");
            }
        }
        if (csv != null) {
            console.say("Written: " + csv);
        }
        TipTrack.Lost lost = track.lost();
        if (lost != null) {
            console.say("Lost at " + MediaTime.ofMicros(lost.timeUs()).toClockText() + ": "
                    + lost.reason().words() + ". Point at it again from there; nothing is filled in.");
        }
        console.say(
                picture == null
                        ? "Too few frames to measure a movement."
                        : text(
                                "In %.1f s the tip went %s in %s. Economy of movement is not competence.",
                                picture.durationS(),
                                length(m, picture.pathLength()),
                                Plural.of(picture.movements().size(), "movement")));
    }

    private void table(TipMeasures m, MotionMeasures picture) {
        MotionMeasures eye = m.toEye();
        TextTable table = new TextTable("Measure", ">in the picture", ">relative to the eye");
        row(table, "path length, pixels", picture, eye, MotionMeasures::pathLength);
        double limbus = m.track().limbusDiameter();
        if (limbus > 0) {
            row(table, "path length, limbus diameters", picture, eye, p -> p.pathLength() / limbus);
            Double mm = whiteToWhite;
            if (mm != null) {
                row(table, "path length, mm", picture, eye, p -> p.pathLength() / limbus * mm);
            }
        }
        row(table, "movements", picture, eye, p -> p.movements().size());
        row(table, "peak speed, pixels a second", picture, eye, MotionMeasures::peakSpeed);
        row(table, "median log dimensionless jerk", picture, eye, p -> p.median(Movement::logDimensionlessJerk));
        row(table, "median spectral arc length", picture, eye, p -> p.median(Movement::spectralArcLength));
        table.print(console::say);
    }

    private static void row(
            TextTable table,
            String name,
            MotionMeasures picture,
            @Nullable MotionMeasures eye,
            ToDoubleFunction<MotionMeasures> measure) {
        table.row(name, cell(measure.applyAsDouble(picture)), eye == null ? "" : cell(measure.applyAsDouble(eye)));
    }

    private static String cell(double value) {
        return Double.isNaN(value) ? "–" : text(value == Math.rint(value) ? "%.0f" : "%.2f", value);
    }

    private String length(TipMeasures m, double pixels) {
        double limbus = m.track().limbusDiameter();
        if (!(limbus > 0)) {
            return text("%.0f pixels", pixels);
        }
        return whiteToWhite == null
                ? text("%.2f limbus diameters", pixels / limbus)
                : text("%.1f mm", pixels / limbus * whiteToWhite);
    }

    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    private Object view(TipMeasures m) {
        TipTrack track = m.track();
        double stretch = track.scale().stretch();
        List<Object> points = new ArrayList<>();
        for (TipPoint p : track.points()) {
            points.add(Json.object(
                    "frame", p.frame(),
                    "time_us", p.timeUs(),
                    "x", p.place().x() * stretch,
                    "y", p.place().y(),
                    "quality", p.quality()));
        }
        TipTrack.Lost lost = track.lost();
        return Json.object(
                "end_us", track.endUs(),
                "lost_us", lost == null ? null : lost.timeUs(),
                "lost_reason", lost == null ? null : lost.reason().id(),
                "limbus_diameter_px", TrackEyeCommand.number(track.limbusDiameter()),
                "eye_share", track.eyeShare(),
                "smoothing_s", m.settings().smoothingS(),
                "threshold_px_per_s", m.settings().threshold(),
                "least_movement_s", m.settings().leastS(),
                "least_rest_s", m.settings().leastRestS(),
                "in_picture", measures(m, m.inPicture()),
                "relative_to_eye", measures(m, m.toEye()),
                "points", points);
    }

    private @Nullable Object measures(TipMeasures m, @Nullable MotionMeasures measures) {
        if (measures == null) {
            return null;
        }
        List<Object> movements = new ArrayList<>();
        for (Movement one : measures.movements()) {
            movements.add(Json.object(
                    "start_s", one.startS(),
                    "end_s", one.endS(),
                    "length_px", one.length(),
                    "peak_speed_px_per_s", one.peakSpeed(),
                    "dimensionless_jerk", one.dimensionlessJerk(),
                    "log_dimensionless_jerk", one.logDimensionlessJerk(),
                    "spectral_arc_length", one.spectralArcLength()));
        }
        double limbus = m.track().limbusDiameter();
        Map<String, @Nullable Object> json = Json.object(
                "duration_s", measures.durationS(),
                "path_length_px", measures.pathLength(),
                "path_length_limbus", TrackEyeCommand.number(measures.pathLength() / limbus),
                "path_length_mm",
                        whiteToWhite == null
                                ? null
                                : TrackEyeCommand.number(measures.pathLength() / limbus * whiteToWhite),
                "mean_speed_px_per_s", measures.meanSpeed(),
                "peak_speed_px_per_s", measures.peakSpeed(),
                "movement_count", measures.movements().size(),
                "median_log_dimensionless_jerk",
                        TrackEyeCommand.number(measures.median(Movement::logDimensionlessJerk)),
                "median_spectral_arc_length", TrackEyeCommand.number(measures.median(Movement::spectralArcLength)));
        json.put("movements", movements);
        return json;
    }
}
