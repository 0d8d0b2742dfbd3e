package org.sideport.report.exchange;

import java.util.ArrayList;
import java.util.List;
import org.sideport.media.export.Chapter;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Recording;

/** Phases as chapters: FFmpeg's metadata text (its documentation, "Metadata"), and as what a copy of the media gets. */
public final class FfMetadata {

    private FfMetadata() {}

    /** Times in microseconds, on the whole recording's timeline. */
    public static String write(Annotated from) {
        StringBuilder text = new StringBuilder(";FFMETADATA1\n");
        for (PhaseSpan span : from.tagging().spans()) {
            MediaTime end = from.endOf(span);
            if (end != null && end.isAfter(span.start())) {
                text.append("[CHAPTER]\nTIMEBASE=1/1000000\nSTART=")
                        .append(span.start().micros())
                        .append("\nEND=")
                        .append(end.micros())
                        .append("\ntitle=")
                        .append(escaped(from.nameOf(span)))
                        .append('\n');
            }
        }
        return text.toString();
    }

    /** Equals sign, semicolon, number sign, backslash and line feed have a backslash before them. */
    private static String escaped(String text) {
        return text.replaceAll("([=;#\\\\\\n])", "\\\\$1");
    }

    /** The chapters of one file of the recording, in its own time from its first frame; a phase over two files is in both. */
    public static List<Chapter> ofFile(Annotated from, Recording recording, int segment) {
        long offset = recording.startOf(segment).micros();
        long length = recording.segments().get(segment).durationUs();
        List<Chapter> chapters = new ArrayList<>();
        for (PhaseSpan span : from.tagging().spans()) {
            MediaTime end = from.endOf(span);
            if (end != null) {
                long start = Math.max(0, span.start().micros() - offset);
                long stop = Math.min(length, end.micros() - offset);
                if (stop > start) {
                    chapters.add(new Chapter(start, stop, from.nameOf(span)));
                }
            }
        }
        return chapters;
    }
}
