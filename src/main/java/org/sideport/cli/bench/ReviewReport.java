package org.sideport.cli.bench;

import java.io.IOException;
import java.util.Locale;
import org.sideport.app.bench.ReviewTrial;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;

/** How soon a key is a tag in the store, and how much memory reviewing takes. Needs a screen. */
final class ReviewReport {

    private static final String CASE = "D-002";
    private static final int TAGS_A_REPEAT = 8;

    private final Console console;

    ReviewReport(Console console) {
        this.console = console;
    }

    void run(int repeats) throws IOException {
        ScreenNeeded.require("review");
        ReviewTrial.Result result;
        try (DemoFolder demo = DemoFolder.make(console)) {
            result = ReviewTrial.run(demo.workspace(), CASE, Math.min(200, TAGS_A_REPEAT * repeats));
        } catch (IOException | RuntimeException e) {
            throw e;
        } catch (Exception e) {
            throw new IllegalStateException("reviewing could not be measured: " + e, e);
        }
        if (console.isJson()) {
            console.printJson(Json.object(
                    "name", "review",
                    "review_tags", result.keyMs().size(),
                    "key_to_store_ms_median", result.keyMedianMs(),
                    "heap_mb", result.heapMb(),
                    "heap_most_mb", result.heapMostMb()));
        } else {
            console.say(String.format(
                    Locale.ROOT,
                    "From a key to its tag in the store %.1f ms (median of %d); heap %.0f MB,"
                            + " %.0f MB before collecting",
                    result.keyMedianMs(),
                    result.keyMs().size(),
                    result.heapMb(),
                    result.heapMostMb()));
        }
    }
}
