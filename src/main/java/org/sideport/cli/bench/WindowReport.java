package org.sideport.cli.bench;

import java.io.IOException;
import java.util.Locale;
import org.sideport.app.bench.FirstWindow;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Progress;

/**
 * How long it is from the start of the program to its window, beside a JavaFX window with one word in it, in turns; each
 * time a process of its own.
 */
final class WindowReport {

    /** The line on standard output that says that the window is there. */
    static final String SHOWN = "shown";

    private final Console console;

    WindowReport(Console console) {
        this.console = console;
    }

    void run(int repeats) throws IOException, InterruptedException {
        ScreenNeeded.require("window");
        double[] own = new double[repeats];
        double[] bare = new double[repeats];
        try (DemoFolder demo = DemoFolder.make(console)) {
            ChildProgram sideport = ChildProgram.sideport(demo.home());
            ChildProgram reference = ChildProgram.plain(BareProgram.class, demo.home());
            String folder = demo.workspace().toString();
            // once for nothing, so that all files are in the machine's memory for both
            sideport.untilItSays(SHOWN, "bench", BenchCommand.WINDOW_ONCE, "--workspace", folder);
            reference.untilItSays(SHOWN);
            Progress progress = console.progress();
            for (int i = 0; i < repeats; i++) {
                progress.report((double) i / repeats, "Opening windows");
                own[i] = sideport.untilItSays(SHOWN, "bench", BenchCommand.WINDOW_ONCE, "--workspace", folder);
                bare[i] = reference.untilItSays(SHOWN);
            }
        }
        double ownMs = Stopwatch.median(own);
        double bareMs = Stopwatch.median(bare);
        if (console.isJson()) {
            console.printJson(Json.object(
                    "name",
                    "window",
                    "first_window_ms_median",
                    ownMs,
                    "bare_window_ms_median",
                    bareMs,
                    "first_window_ratio",
                    ownMs / bareMs,
                    "first_window_with_archive",
                    ChildProgram.hasArchive()));
        } else {
            console.say(String.format(
                    Locale.ROOT,
                    "First window %.2f times as long after the start as a bare JavaFX window (medians of %d, %.0f and"
                            + " %.0f ms%s)",
                    ownMs / bareMs,
                    repeats,
                    ownMs,
                    bareMs,
                    ChildProgram.hasArchive()
                            ? ""
                            : "; without an archive of classes: started by ./sideport it has one"));
        }
    }

    /** What the measured program does: as {@code open} the workspace, then the window, once. */
    void once() {
        FirstWindow.run(() -> console.workspaces().openOrCreate(console.namedWorkspace()), () -> console.say(SHOWN));
    }
}
