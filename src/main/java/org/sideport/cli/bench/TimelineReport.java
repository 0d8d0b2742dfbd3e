package org.sideport.cli.bench;

import java.util.Locale;
import org.sideport.app.bench.TimelineBench;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;

/** How fast a crowded timeline is drawn anew; needs a screen. */
final class TimelineReport {

    private static final int REDRAWS_A_REPEAT = 34;

    private final Console console;

    TimelineReport(Console console) {
        this.console = console;
    }

    void run(int repeats) throws InterruptedException {
        ScreenNeeded.require("timeline");
        TimelineBench.Result timeline = TimelineBench.measure(REDRAWS_A_REPEAT * repeats);
        if (console.isJson()) {
            console.printJson(Json.object(
                    "name", "timeline",
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
}
