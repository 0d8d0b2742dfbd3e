package org.sideport.report.exchange;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.MediaTime;
import org.sideport.model.PointEvent;

/**
 * SubRip text ({@code .srt}), which no body has published: counter, times with a comma, text. What comments and events say and
 * nothing else. {@link WebVtt#read} reads it.
 */
public final class SubRip {

    private SubRip() {}

    /** Comments with their author's code, and events, with line ends as most players want them. */
    public static String write(Annotated from) {
        record Entry(MediaTime at, MediaTime to, String text) {}
        List<Entry> entries = new ArrayList<>();
        for (CommentThread thread : from.threads()) {
            Comment comment = thread.comment();
            List<String> lines = Threads.lines(thread);
            if (!lines.isEmpty()) {
                String said = comment.author() + ": " + String.join("\r\n", lines);
                entries.add(new Entry(comment.from(), Threads.shownUntil(comment), plain(said)));
            }
        }
        for (PointEvent event : from.tagging().events()) {
            String said = from.nameOfEvent(event.kind())
                    + (event.note().isBlank() ? "" : ": " + event.note().replaceAll("\\s+", " "));
            entries.add(new Entry(event.at(), MediaTime.ofMicros(event.at().micros() + Threads.SHOWN_US), plain(said)));
        }
        entries.sort(Comparator.comparing(Entry::at));
        StringBuilder text = new StringBuilder();
        int number = 0;
        for (Entry entry : entries) {
            long end = Math.max(entry.at().micros() / 1000 + 1, entry.to().micros() / 1000);
            text.append(++number)
                    .append("\r\n")
                    .append(Cues.time(entry.at(), ','))
                    .append(" --> ")
                    .append(Cues.time(MediaTime.ofMicros(end * 1000), ','))
                    .append("\r\n")
                    .append(entry.text())
                    .append("\r\n\r\n");
        }
        return text.toString();
    }

    /** Players take what stands in brackets for markup, and an arrow for times. */
    private static String plain(String text) {
        return text.replace("-->", "->")
                .replace('<', '‹')
                .replace('>', '›')
                .replace('{', '(')
                .replace('}', ')');
    }
}
