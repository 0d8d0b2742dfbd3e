package org.sideport.cli.bench;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Measures how long computations take, and the references beside them. */
@Command(
        name = "bench",
        description = {
            "Measures how long the computations take on made-up data, each beside a reference in the same run: a"
                    + " warm-up, then several repeats, of which the median counts.",
            "Where R's Rscript is on the path, R does the same on the same data; its time is that of the computation"
                    + " alone, measured inside R. The ratio says how many times longer the reference takes.",
            "Ends with 1 where a reference came to another result.",
            "playback measures live playback through LibVLC on a drawn recording whose pictures carry their number: how"
                    + " far the time shown is from the picture, and how many key presses are put on the very frame.",
            "",
            "With media it measures how fast recordings are read: it makes an hour of video in a temporary folder, and"
                    + " where ffmpeg and ffprobe are on the path, they do the same in turns.",
            "With store it measures lists and saving on very many made-up cases; with report, a workbook of 100 000"
                    + " marks beside the library's own streaming of the same cells, and the director's figures over 10 000"
                    + " cases.",
            "",
            "Examples: sideport bench stats --repeats 5",
            "          sideport bench media --minutes 5"
        })
public final class BenchCommand implements Callable<Integer> {

    private static final int FINDING = 1;
    private static final int WARM_UPS = 5;

    /** What {@code window} starts again and again. */
    static final String WINDOW_ONCE = "window-once";

    private static final Set<String> SCREENS = Set.of("app", "timeline", "cases", "window", WINDOW_ONCE, "review");

    private final Console console;

    @Parameters(
            paramLabel = "NAME",
            arity = "0..1",
            defaultValue = "stats",
            description = "What to measure: stats, media, store, playback, report, or app (how fast the screens are; it"
                    + " needs one). Parts of app on their own: timeline, cases, window, review. Default:"
                    + " ${DEFAULT-VALUE}.")
    String name = "stats";

    @Option(
            names = "--repeats",
            paramLabel = "N",
            defaultValue = "7",
            description = "How often each is measured, 1 to 1000. Default: ${DEFAULT-VALUE}.")
    int repeats;

    @Option(
            names = "--minutes",
            paramLabel = "N",
            defaultValue = "60",
            description = "With media: how long the recording is that is made to be read, 1 to 180."
                    + " Default: ${DEFAULT-VALUE}.")
    int minutes;

    @Option(
            names = "--only",
            paramLabel = "ID",
            split = ",",
            description = "Only these measurements, by the id that --json shows.")
    List<String> only = new ArrayList<>();

    @Mixin
    StoreOptions store = new StoreOptions();

    public BenchCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws IOException {
        if (name.equals("playback")) {
            return PlaybackReport.run(console);
        }
        if (name.equals("store")) {
            return new StoreBench(console, store).run();
        }
        if (repeats < 1 || repeats > 1000) {
            throw new InputException(repeats + " repeats", "--repeats", "write a number from 1 to 1000");
        }
        if (name.equals("media")) {
            return media();
        }
        if (name.startsWith(ReportBench.NAME)) {
            reports();
            return 0;
        }
        if (SCREENS.contains(name)) {
            screens();
            return 0;
        }
        List<Measurement> measurements = measurements();
        boolean reference = Rscript.isOn(System.getenv("PATH"));
        if (!reference) {
            console.note("no Rscript on the path: our own time only");
        }
        List<MeasurementResult> results = new ArrayList<>();
        for (Measurement measurement : measurements) {
            MeasurementResult result = measure(measurement, reference);
            results.add(result);
            if (!console.isJson()) {
                console.say(result.line());
            }
        }
        if (console.isJson()) {
            console.printJson(Json.object(
                    "name", name,
                    "repeats", repeats,
                    "java", Runtime.version().toString(),
                    "processors", Runtime.getRuntime().availableProcessors(),
                    "measurements",
                            results.stream().map(MeasurementResult::json).toList()));
        }
        boolean different = results.stream().anyMatch(r -> Boolean.FALSE.equals(r.sameResult()));
        return different ? FINDING : 0;
    }

    private void screens() throws IOException {
        try {
            switch (name) {
                case "timeline" -> new TimelineReport(console).run(repeats);
                case "cases" -> new CasesBench(console).run();
                case "window" -> new WindowReport(console).run(repeats);
                case WINDOW_ONCE -> new WindowReport(console).once();
                case "review" -> new ReviewReport(console).run(repeats);
                default -> new AppReport(console).run(repeats);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException("cancelled");
        }
    }

    private void reports() throws IOException {
        try {
            new ReportBench(console, repeats).run(name);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException("cancelled");
        }
    }

    private int media() throws IOException {
        if (minutes < 1 || minutes > 180) {
            throw new InputException(minutes + " minutes", "--minutes", "write a number from 1 to 180");
        }
        List<Figure> figures = MediaBench.run(minutes, repeats, System.getenv("PATH"), console.progress());
        if (console.isJson()) {
            Map<String, @Nullable Object> flat = new LinkedHashMap<>();
            figures.forEach(figure -> flat.put(figure.key(), figure.value()));
            console.printJson(flat);
            return 0;
        }
        TextTable table = new TextTable("what", ">ours", "beside", ">figure", "wanted");
        for (Figure figure : figures) {
            Double value = figure.value();
            table.row(
                    figure.what(),
                    figure.ours(),
                    figure.reference(),
                    value == null ? "–" : (MediaBench.number(value) + " " + figure.unit()).strip(),
                    figure.wish());
        }
        table.print(console::say);
        return 0;
    }

    private List<Measurement> measurements() {
        if (!name.equals("stats")) {
            throw new InputException(
                    "there is nothing to measure by the name " + name,
                    "NAME",
                    "write: stats, media, store, playback, app, timeline, cases, window, review or report");
        }
        List<Measurement> all = Measurement.stats();
        List<String> ids = all.stream().map(Measurement::id).toList();
        for (String id : only) {
            if (!ids.contains(id)) {
                throw new InputException(
                        "there is no measurement " + id, "--only", "choose from " + String.join(", ", ids));
            }
        }
        return all.stream().filter(m -> only.isEmpty() || only.contains(m.id())).toList();
    }

    private MeasurementResult measure(Measurement measurement, boolean reference) {
        Stopwatch stopwatch = new Stopwatch(WARM_UPS, repeats);
        Stopwatch.Timing own = stopwatch.time(measurement::own);
        Measurement.Baseline baseline = measurement.baseline();
        if (baseline instanceof Measurement.Baseline.Work work) {
            return result(measurement, own, stopwatch.time(work.work()).seconds(), null, null);
        }
        if (!reference) {
            return result(measurement, own, null, null, "no Rscript on the path: our own time only");
        }
        Rscript.Result other = run((Measurement.Baseline.Script) baseline);
        return result(measurement, own, other.seconds(), other.value(), other.note());
    }

    private Rscript.Result run(Measurement.Baseline.Script script) {
        try {
            return Rscript.run(script, repeats);
        } catch (IOException e) {
            return Rscript.Result.failed("the reference could not be run: " + e.getMessage());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException();
        }
    }

    private static MeasurementResult result(
            Measurement measurement,
            Stopwatch.Timing own,
            @Nullable Double seconds,
            @Nullable Double value,
            @Nullable String note) {
        return new MeasurementResult(
                measurement, own.seconds(), own.value(), measurement.baseline().name(), seconds, value, note);
    }
}
