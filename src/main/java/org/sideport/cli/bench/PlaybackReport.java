package org.sideport.cli.bench;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.sideport.app.picture.PlaybackBench;
import org.sideport.app.picture.PlaybackBench.Presses;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/** What {@code bench playback} measures and says. */
final class PlaybackReport {

    private static final int PRESSES = 60;

    private PlaybackReport() {}

    static int run(Console console) {
        try (PlaybackBench bench = PlaybackBench.open(Progress.NONE)) {
            Presses normal = bench.moving(1, PRESSES);
            Presses twice = bench.moving(2, PRESSES);
            Presses still = bench.still(PRESSES / 2);
            double border = bench.borderPauseMs();
            if (console.isJson()) {
                console.printJson(Json.object(
                        "name", "playback",
                        "presses", PRESSES,
                        "clock_error_ms_median", percentile(absolute(normal.clockMs()), 0.5),
                        "clock_error_ms_p95", percentile(absolute(normal.clockMs()), 0.95),
                        "clock_error_2x_ms_median", percentile(absolute(twice.clockMs()), 0.5),
                        "clock_error_2x_ms_p95", percentile(absolute(twice.clockMs()), 0.95),
                        "stamped_exactly_1x", share(normal),
                        "stamped_exactly_2x", share(twice),
                        "still_scene_error_ms", percentile(still.leftMs(), 0.5),
                        "still_scene_error_ms_p95", percentile(still.leftMs(), 0.95),
                        "search_ms_median", percentile(normal.searchMs(), 0.5),
                        "border_pause_ms", border));
                return 0;
            }
            console.say(line("time shown while playing, from the picture shown, 1 ×", absolute(normal.clockMs())));
            console.say(line("the same at 2 ×", absolute(twice.clockMs())));
            console.say(exact(normal));
            console.say(exact(twice));
            console.say(line("error left where nothing moves", still.leftMs()));
            console.say(line("time to find the frame", normal.searchMs()));
            console.say(String.format(Locale.ROOT, "pause from one file to the next: %.0f ms", border));
            return 0;
        } catch (IOException e) {
            throw new InputException(
                    "the recording for the measurement cannot be drawn: " + e.getMessage(),
                    null,
                    "make room in the folder for temporary files");
        }
    }

    private static String exact(Presses presses) {
        return String.format(
                Locale.ROOT,
                "key presses put on the very frame at %.0f ×: %d of %d",
                presses.rate(),
                presses.exact(),
                presses.clockMs().size());
    }

    private static double share(Presses presses) {
        return (double) presses.exact() / presses.clockMs().size();
    }

    private static List<Double> absolute(List<Double> values) {
        return values.stream().map(Math::abs).toList();
    }

    private static String line(String what, List<Double> values) {
        return String.format(
                Locale.ROOT,
                "%s: median %.0f ms, 95 %% within %.0f ms",
                what,
                percentile(values, 0.5),
                percentile(values, 0.95));
    }

    /** The smallest value that {@code share} of all do not exceed. */
    private static double percentile(List<Double> values, double share) {
        double[] sorted = values.stream().mapToDouble(Double::doubleValue).toArray();
        Arrays.sort(sorted);
        return sorted[Math.max(0, (int) Math.ceil(share * sorted.length) - 1)];
    }
}
