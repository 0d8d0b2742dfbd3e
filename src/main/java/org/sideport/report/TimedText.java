package org.sideport.report;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.Tagging;

/** Phases as timed text that players show beside a recording. */
public final class TimedText {

    private TimedText() {}

    /**
     * Phases as a WebVTT chapters file (W3C WebVTT, Candidate Recommendation 2019, section 1.5): one cue for each span, in
     * order, without overlap, cut to milliseconds. A span without a known end has no cue.
     */
    public static String webVtt(Procedure procedure, Tagging tagging, @Nullable Recording recording) {
        StringBuilder text = new StringBuilder("WEBVTT\n");
        int cue = 0;
        for (PhaseSpan span : tagging.spans()) {
            MediaTime end = span.end() == null && recording != null ? recording.duration() : span.end();
            // A cue must have length; below a millisecond there is nothing to see.
            if (end == null || end.micros() / 1000 <= span.start().micros() / 1000) {
                continue;
            }
            String name = procedure.find(span.phase()).map(Procedure.Term::name).orElse(span.phase());
            text.append('\n')
                    .append(++cue)
                    .append('\n')
                    .append(time(span.start()))
                    .append(" --> ")
                    .append(time(end))
                    .append('\n')
                    .append(name.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;"))
                    .append('\n');
        }
        return text.toString();
    }

    private static String time(MediaTime time) {
        long millis = time.micros() / 1000;
        return String.format(
                Locale.ROOT,
                "%02d:%02d:%02d.%03d",
                millis / 3_600_000,
                millis / 60_000 % 60,
                millis / 1000 % 60,
                millis % 1000);
    }
}
