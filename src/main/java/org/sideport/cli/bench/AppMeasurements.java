package org.sideport.cli.bench;

import java.util.Locale;
import java.util.concurrent.CancellationException;
import org.sideport.app.bench.TimelineBench;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;

/** How fast the screens are; needs one. */
final class AppMeasurements {

    private static final int REDRAWS_A_REPEAT = 34;

    private final Console console;

    AppMeasurements(Console console) {
        this.console = console;
    }

    void run(int repeats) {
        if (!hasScreen()) {
            throw new InputException(
                    "there is no screen here to draw on",
                    null,
                    "run it under a virtual screen: xvfb-run -a ./sideport bench app");
        }
        TimelineBench.Result timeline;
        try {
            timeline = TimelineBench.measure(REDRAWS_A_REPEAT * repeats);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException("cancelled");
        }
        if (console.isJson()) {
            console.printJson(Json.object(
                    "name", "app",
                    "java", Runtime.version().toString(),
                    "processors", Runtime.getRuntime().availableProcessors(),
                    "timeline_spans", timeline.spans(),
                    "timeline_events", timeline.points(),
                    "timeline_traces", timeline.curves(),
                    "timeline_redraws", timeline.redraws(),
                    "timeline_redraw_ms_median", timeline.redrawMs(),
                    "timeline_redraw_ms_p95", timeline.redrawMsP95(),
                    "timeline_redraw_cpu_ms_mean", timeline.cpuMs(),
                    "timeline_redraw_allocated_bytes_median", timeline.allocatedBytes(),
                    "timeline_redraw_allocated_bytes_max", timeline.allocatedBytesMost()));
        } else {
            console.say(String.format(
                    Locale.ROOT,
                    "Timeline with %d spans, %d events and %d traces of an hour, 1920 pixels wide: redrawn in %.1f ms"
                            + " (median of %d; 95 %% within %.1f ms), %d kB allocated for it",
                    timeline.spans(),
                    timeline.points(),
                    timeline.curves(),
                    timeline.redrawMs(),
                    timeline.redraws(),
                    timeline.redrawMsP95(),
                    timeline.allocatedBytes() / 1024));
        }
    }

    private static boolean hasScreen() {
        boolean linux =
                System.getProperty("os.name", "").toLowerCase(Locale.ROOT).contains("linux");
        return !linux || System.getenv("DISPLAY") != null || System.getenv("WAYLAND_DISPLAY") != null;
    }
}
