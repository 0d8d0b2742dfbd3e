package org.sideport.cli.bench;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.sideport.app.bench.FirstWindow;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Progress;

/**
 * How long it is from the start of the program to its window, and to the cases in it, beside a JavaFX window with one word
 * in it, in turns; each time a process of its own.
 */
final class WindowReport {

    /** The line on standard output that says that the window is there. */
    static final String SHOWN = "shown";

    /** The line that says that the window shows the cases. */
    private static final String FILLED = "filled";

    private final Console console;

    WindowReport(Console console) {
        this.console = console;
    }

    void run(int repeats) throws IOException, InterruptedException {
        ScreenNeeded.require("window");
        double[] own = new double[repeats];
        double[] filled = new double[repeats];
        double[] bare = new double[repeats];
        try (DemoFolder demo = DemoFolder.make(console)) {
            ChildProgram sideport = ChildProgram.sideport(demo.home());
            ChildProgram reference = ChildProgram.plain(BareProgram.class, demo.home());
            String folder = demo.workspace().toString();
            Progress progress = console.progress();
            // once for nothing, so that all files are in the machine's memory for both
            for (int i = -1; i < repeats; i++) {
                double[] ours = sideport.untilItSays(
                        List.of(SHOWN, FILLED), "bench", BenchCommand.WINDOW_ONCE, "--workspace", folder);
                double[] theirs = reference.untilItSays(List.of(SHOWN));
                if (i >= 0) {
                    own[i] = ours[0];
                    filled[i] = ours[1];
                    bare[i] = theirs[0];
                }
                progress.report((i + 1.0) / repeats, "Opening windows");
            }
        }
        double ownMs = Stopwatch.median(own);
        double filledMs = Stopwatch.median(filled);
        double bareMs = Stopwatch.median(bare);
        if (console.isJson()) {
            console.printJson(Json.object(
                    "name",
                    "window",
                    "first_window_ms_median",
                    ownMs,
                    "window_with_cases_ms_median",
                    filledMs,
                    "bare_window_ms_median",
                    bareMs,
                    "first_window_ratio",
                    ownMs / bareMs,
                    "window_with_cases_ratio",
                    filledMs / bareMs,
                    "first_window_with_archive",
                    ChildProgram.hasArchive()));
        } else {
            console.say(String.format(
                    Locale.ROOT,
                    "First window %.2f times, its cases %.2f times as long after the start as a bare JavaFX window"
                            + " (medians of %d: %.0f, %.0f and %.0f ms%s)",
                    ownMs / bareMs,
                    filledMs / bareMs,
                    repeats,
                    ownMs,
                    filledMs,
                    bareMs,
                    ChildProgram.hasArchive()
                            ? ""
                            : "; without an archive of classes: started by ./sideport it has one"));
        }
    }

    /** What the measured program does: as {@code open} the workspace, then the window, once. */
    void once() {
        Path named = console.namedWorkspace();
        FirstWindow.run(
                console.workspaces().folder(named),
                () -> console.workspaces().openOrCreate(named),
                () -> console.say(SHOWN),
                () -> console.say(FILLED));
    }
}
