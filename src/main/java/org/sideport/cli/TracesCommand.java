package org.sideport.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.media.NaturalOrder;
import org.sideport.media.TimeHole;
import org.sideport.media.trace.Finding;
import org.sideport.media.trace.Findings;
import org.sideport.media.trace.Proposal;
import org.sideport.media.trace.Proposals;
import org.sideport.media.trace.TraceComputer;
import org.sideport.media.trace.TraceCsv;
import org.sideport.media.trace.TraceFile;
import org.sideport.media.trace.TraceKind;
import org.sideport.media.trace.Traces;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "traces",
        description = {
            "Measures activity, brightness, sharpness and scene changes over a recording.",
            "Example: sideport traces part1.mp4 part2.mp4 --findings --csv traces.csv",
            "",
            "With --findings it also says what they suggest: black, frozen and empty stretches, loss of focus, jumps and"
                    + " holes in the times, what lies outside the operation, idle stretches and candidates for"
                    + " boundaries. These are proposals for a person to look at, never tags; activity is no measure of"
                    + " skill."
        })
final class TracesCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "The files of one operation.")
    List<Path> files;

    @Option(
            names = "--hz",
            paramLabel = "N",
            defaultValue = "5",
            description = "Moments a second, 0.1 to 60; by default ${DEFAULT-VALUE}.")
    double hz;

    @Option(names = "--csv", paramLabel = "CSV", description = "Write the traces to this new file, one moment a row.")
    @Nullable
    Path csv;

    @Option(names = "--replace", description = "Write over the CSV file if it is there.")
    boolean replace;

    @Option(
            names = "--keep",
            paramLabel = "DIR",
            description = "Keep the traces in this folder and take them from there next time.")
    @Nullable
    Path folder;

    @Option(names = "--findings", description = "Say what the traces suggest.")
    boolean findings;

    @Option(names = "--keep-order", description = "Take the files in the order given, not by name.")
    boolean keepOrder;

    TracesCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        List<Path> ordered = keepOrder ? files : NaturalOrder.sorted(files);
        if (csv != null) {
            TraceCsv.requireFree(csv, replace);
        }
        Traces traces = folder == null
                ? TraceComputer.compute(ordered, console.frameIndexes(), hz, console.progress())
                : TraceFile.readOrCompute(folder, ordered, console.frameIndexes(), hz, console.progress());
        if (csv != null) {
            TraceCsv.write(traces, csv, replace);
        }
        List<Finding> found = findings ? Findings.of(traces) : List.of();
        List<Proposal> proposed = findings ? Proposals.of(traces) : List.of();
        if (console.isJson()) {
            console.printJson(view(traces, found, proposed));
        } else {
            say(traces, found, proposed);
        }
        return 0;
    }

    private void say(Traces traces, List<Finding> found, List<Proposal> proposed) {
        console.say(Plural.of(traces.size(), "moment") + " over "
                + MediaTime.ofMicros(traces.durationUs()).toClockText() + " in "
                + Plural.of(traces.segmentStartsUs().size(), "file"));
        TextTable table = new TextTable("Trace", ">least", ">mean", ">greatest");
        for (TraceKind kind : TraceKind.values()) {
            Summary s = Summary.of(traces.of(kind));
            table.row(kind.id(), number(s.least()), number(s.mean()), number(s.greatest()));
        }
        table.print(console::say);
        if (csv != null) {
            console.say("Written: " + csv);
        }
        if (!findings) {
            return;
        }
        console.say("");
        console.say(found.isEmpty() ? "No findings about the recording." : "Findings, for a person to look at:");
        found.forEach(f -> console.say(line(f.start(), f.end(), f.kind().id(), f.evidence(), f.confidence())));
        console.say(proposed.isEmpty() ? "Nothing to propose." : "Proposals, never tags:");
        proposed.forEach(p -> console.say(line(p.start(), p.end(), p.kind().id(), p.evidence(), p.confidence())));
    }

    private static String line(MediaTime start, MediaTime end, String kind, String evidence, double confidence) {
        String when = end.equals(start) ? start.toClockText() : start.toClockText() + "–" + end.toClockText();
        return String.format(Locale.ROOT, "  %s  %s (%.1f): %s", when, kind, confidence, evidence);
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.2f", value);
    }

    private Map<String, @Nullable Object> view(Traces traces, List<Finding> found, List<Proposal> proposed) {
        List<Object> holes = new ArrayList<>();
        for (TimeHole hole : traces.holes()) {
            holes.add(Json.object("segment", hole.segment(), "start_us", hole.startUs(), "end_us", hole.endUs()));
        }
        Map<String, @Nullable Object> series = Json.object();
        for (Map.Entry<TraceKind, float[]> one : new EnumMap<>(traces.values()).entrySet()) {
            series.put(one.getKey().id(), one.getValue());
        }
        Map<String, @Nullable Object> json = Json.object(
                "start_us", traces.startUs(),
                "step_us", traces.stepUs(),
                "duration_us", traces.durationUs(),
                "segment_starts_us", traces.segmentStartsUs(),
                "holes", holes,
                "traces", series);
        if (findings) {
            List<Object> findingViews = new ArrayList<>();
            found.forEach(
                    f -> findingViews.add(suggestion(f.kind().id(), f.start(), f.end(), f.evidence(), f.confidence())));
            List<Object> proposalViews = new ArrayList<>();
            proposed.forEach(p ->
                    proposalViews.add(suggestion(p.kind().id(), p.start(), p.end(), p.evidence(), p.confidence())));
            json.put("findings", findingViews);
            json.put("proposals", proposalViews);
        }
        return json;
    }

    private static Object suggestion(String kind, MediaTime start, MediaTime end, String evidence, double confidence) {
        return Json.object(
                "kind", kind,
                "start_us", start.micros(),
                "end_us", end.micros(),
                "evidence", evidence,
                "confidence", confidence);
    }

    /** Least, mean and greatest of a trace. */
    private record Summary(double least, double mean, double greatest) {
        static Summary of(float[] trace) {
            double least = Double.POSITIVE_INFINITY;
            double greatest = Double.NEGATIVE_INFINITY;
            double sum = 0;
            for (float value : trace) {
                least = Math.min(least, value);
                greatest = Math.max(greatest, value);
                sum += value;
            }
            return new Summary(least, sum / trace.length, greatest);
        }
    }
}
