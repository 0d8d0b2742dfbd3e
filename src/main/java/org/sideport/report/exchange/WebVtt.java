package org.sideport.report.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Caption;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.report.TimedText;
import tools.jackson.databind.JsonNode;

/**
 * WebVTT (W3C, Candidate Recommendation 2019) in its three kinds: chapters out of phases, captions out of comments, and
 * metadata cues that hold all of both as JSON. Times are cut to milliseconds; the metadata cues hold the exact ones.
 */
public final class WebVtt {

    private static final Pattern TAG = Pattern.compile("</?[a-zA-Z][^>]*>|<\\d[^>]*>");

    private WebVtt() {}

    /** Phases as chapters. */
    public static String chapters(Annotated from) {
        return TimedText.webVtt(from.procedure(), from.tagging(), from.recording());
    }

    /** Comments as captions, each in the voice of its author's code; a moment is shown for three seconds. */
    public static String captions(Annotated from) {
        StringBuilder text = new StringBuilder("WEBVTT\n");
        for (CommentThread thread : from.threads()) {
            List<String> lines = Threads.lines(thread);
            if (!lines.isEmpty()) {
                Comment comment = thread.comment();
                String said = "<v " + escaped(comment.author()) + ">" + escaped(String.join("\n", lines));
                cue(text, comment.id(), comment.from(), Threads.shownUntil(comment), said);
            }
        }
        return text.toString();
    }

    /** Captions as they are. */
    public static String captions(List<Caption> captions) {
        StringBuilder text = new StringBuilder("WEBVTT\n");
        for (Caption caption : captions) {
            List<String> lines =
                    caption.text().lines().filter(l -> !l.isBlank()).toList();
            cue(
                    text,
                    "",
                    MediaTime.ofMicros(caption.fromUs()),
                    MediaTime.ofMicros(caption.toUs()),
                    escaped(String.join("\n", lines)));
        }
        return text.toString();
    }

    /** Phases, events and comments as metadata cues, one line of JSON each. */
    public static String metadata(Annotated from) {
        record Entry(MediaTime at, MediaTime to, String id, JsonNode detail) {}
        List<Entry> entries = new ArrayList<>();
        for (PhaseSpan span : from.tagging().spans()) {
            MediaTime end = from.endOf(span);
            MediaTime shown = end == null || !end.isAfter(span.start()) ? later(span.start()) : end;
            entries.add(new Entry(span.start(), shown, "", DetailJson.of(span, from)));
        }
        for (PointEvent event : from.tagging().events()) {
            entries.add(new Entry(event.at(), later(event.at()), "", DetailJson.of(event, from)));
        }
        for (CommentThread thread : from.threads()) {
            Comment comment = thread.comment();
            if (Threads.saysWithoutVoice(comment)) {
                MediaTime to = comment.to();
                entries.add(new Entry(
                        comment.from(), to == null ? later(comment.from()) : to, comment.id(), DetailJson.of(thread)));
            }
        }
        entries.sort(Comparator.comparing(Entry::at));
        StringBuilder text = new StringBuilder("WEBVTT\n");
        for (Entry entry : entries) {
            // ">" as an escape, so that no arrow can stand in a cue
            String json = StandardJson.MAPPER.writeValueAsString(entry.detail()).replace(">", "\\u003e");
            cue(text, entry.id(), entry.at(), entry.to(), json);
        }
        return text.toString();
    }

    private static MediaTime later(MediaTime time) {
        return MediaTime.ofMicros(time.micros() + 1_000_000);
    }

    private static void cue(StringBuilder text, String id, MediaTime from, MediaTime to, String payload) {
        long start = from.micros() / 1000;
        // a cue must have length
        long end = Math.max(start + 1, to.micros() / 1000);
        text.append('\n').append(id).append(id.isEmpty() ? "" : "\n");
        text.append(Cues.time(from, '.'))
                .append(" --> ")
                .append(Cues.time(MediaTime.ofMicros(end * 1000), '.'))
                .append('\n')
                .append(payload)
                .append('\n');
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }

    /**
     * What a WebVTT or SubRip file says; JSON of this program is understood, other cues are text.
     *
     * @throws InputException at the first line that does not fit
     */
    public static List<Note> read(Path file) {
        return read(StandardJson.text(file), String.valueOf(file.getFileName()));
    }

    /** As {@link #read(Path)}, of a text. */
    public static List<Note> read(String text, String name) {
        List<Cues.Cue> cues = Cues.read(text, name);
        if (cues.isEmpty()) {
            throw new InputException("there is no cue in this file", name, "choose a WebVTT or SubRip file");
        }
        DetailJson details = new DetailJson();
        boolean vtt = Cues.isWebVtt(text);
        return cues.stream().map(c -> note(c, details, vtt, name)).toList();
    }

    private static Note note(Cues.Cue cue, DetailJson details, boolean vtt, String name) {
        String place = name + ", line " + (cue.line() + 1);
        String payload = String.join("\n", cue.payload()).strip();
        Detail detail = detail(payload, details, place);
        if (detail != null) {
            return new Note(
                    place, cue.from(), cue.to(), "", List.of(), detail.at(cue.from(), cue.to(), Rounding.MILLISECONDS));
        }
        String said = TAG.matcher(payload).replaceAll("");
        if (vtt) {
            said = said.replace("&lt;", "<")
                    .replace("&gt;", ">")
                    .replace("&nbsp;", "\u00A0")
                    .replace("&lrm;", "\u200E")
                    .replace("&rlm;", "\u200F")
                    .replace("&amp;", "&");
        } else {
            said = said.replaceAll("\\{\\\\[^}]*}", "");
        }
        return new Note(place, cue.from(), cue.to(), said.strip(), List.of(), null);
    }

    private static @Nullable Detail detail(String payload, DetailJson details, String place) {
        if (!payload.startsWith("{")) {
            return null;
        }
        JsonNode node;
        try {
            node = StandardJson.parse(payload, place);
        } catch (InputException e) {
            if (payload.startsWith("{\"phase\"")
                    || payload.startsWith("{\"event\"")
                    || payload.startsWith("{\"comment\"")) {
                throw e;
            }
            // other programs' text may well start with a brace
            return null;
        }
        return DetailJson.isOne(node) ? details.read(node, place) : null;
    }
}
