package org.sideport.cli.console;

import java.io.PrintWriter;
import java.util.Locale;
import org.sideport.model.Progress;

/** Progress as one line on a terminal that is written over. Used from one thread. */
public final class ProgressLine implements Progress {

    private static final long EVERY_NANOS = 100_000_000;

    private final PrintWriter out;
    private long last;
    private boolean shown;

    public ProgressLine(PrintWriter out) {
        this.out = out;
    }

    @Override
    public void report(double fraction, String message) {
        long now = System.nanoTime();
        boolean end = fraction >= 1;
        if (!end && shown && now - last < EVERY_NANOS) {
            return;
        }
        last = now;
        shown = true;
        String share = fraction < 0 ? "    " : String.format(Locale.ROOT, "%3.0f %%", fraction * 100);
        out.print("\r\u001b[K" + (end ? "" : share + "  " + message));
        out.flush();
    }
}
