package org.sideport.report.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.Voice;
import org.sideport.report.page.Feedback.Film;
import tools.jackson.databind.json.JsonMapper;

/** What the script of the page works with, as JSON. Times in seconds. */
final class PageData {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();
    private static final List<String> WORDS =
            List.of("player.play", "player.pause", "voice.listen", "voice.stop", "recording");

    private final Feedback feedback;
    private final PageWords words;

    private PageData(Feedback feedback, PageWords words) {
        this.feedback = feedback;
        this.words = words;
    }

    /** JSON that can stand in a script element: nothing in it ends the element or a line of script. */
    static String of(Feedback feedback, PageWords words) {
        return MAPPER.writeValueAsString(new PageData(feedback, words).all())
                .replace("&", "\\u0026")
                .replace("<", "\\u003c")
                .replace(">", "\\u003e")
                .replace("\u2028", "\\u2028")
                .replace("\u2029", "\\u2029");
    }

    private Map<String, @Nullable Object> all() {
        Film film = feedback.film();
        Map<String, @Nullable Object> all = new LinkedHashMap<>();
        all.put("length_s", film == null ? 0 : s(film.durationUs()));
        all.put("frame_s", film == null ? 0 : s(film.meanFrameUs()));
        Map<String, String> said = new LinkedHashMap<>();
        WORDS.forEach(key -> said.put(key.substring(key.indexOf('.') + 1), words.get(key)));
        all.put("words", said);
        all.put(
                "spans",
                feedback.tagging() == null
                        ? List.of()
                        : feedback.tagging().spans().stream().map(this::span).toList());
        List<Object> comments = new ArrayList<>();
        for (CommentThread thread : feedback.comments()) {
            comments.add(comment(thread.comment(), comments.size() + 1));
        }
        all.put("comments", comments);
        return all;
    }

    private static double s(long us) {
        return us / 1e6;
    }

    private double at(long us) {
        return s(FeedbackViews.middleUs(feedback.film(), us));
    }

    private Map<String, @Nullable Object> span(PhaseSpan span) {
        Film film = feedback.film();
        MediaTime end = span.end();
        Map<String, @Nullable Object> made = new LinkedHashMap<>();
        made.put("at", at(span.start().micros()));
        made.put("start", span.start().seconds());
        made.put(
                "end", end != null ? end.seconds() : film == null ? span.start().seconds() : s(film.durationUs()));
        return made;
    }

    private Map<String, @Nullable Object> comment(Comment comment, int number) {
        Film film = feedback.film();
        long from = comment.from().micros();
        long start = film == null ? from : film.frames().startUs(from);
        long until = film == null ? from + 1 : film.frames().endUs(from);
        MediaTime to = comment.to();
        Map<String, @Nullable Object> made = new LinkedHashMap<>();
        made.put("at", at(from));
        made.put("from", s(start));
        made.put("until", s(until));
        made.put("to", to == null ? s(until) : to.seconds());
        made.put(
                "said",
                words.get("comment.said", number, feedback.comments().size(), PageWords.clock(from)) + ". "
                        + comment.text());
        made.put("marks", comment.drawing().stream().map(PageData::mark).toList());
        Voice voice = comment.voice();
        made.put("voice", voice == null ? null : voice(voice));
        return made;
    }

    private static Map<String, Object> mark(DrawnMark mark) {
        Map<String, Object> made = new LinkedHashMap<>();
        made.put("kind", mark.kind().id());
        made.put("colour", mark.colour().id());
        made.put(
                "points", mark.points().stream().map(p -> List.of(p.x(), p.y())).toList());
        made.put("words", mark.words());
        return made;
    }

    /** The stretches of standing and running, and from when to when each mark is on the picture. */
    private Map<String, Object> voice(Voice voice) {
        List<Object> pieces = new ArrayList<>();
        for (SeenTrack.Piece piece : voice.seen().pieces(voice.lengthUs())) {
            Map<String, Object> made = new LinkedHashMap<>();
            made.put("v", s(piece.fromUs()));
            made.put("t", piece.time().seconds());
            made.put("at", at(piece.time().micros()));
            made.put("rate", piece.rate());
            pieces.add(made);
        }
        List<Map<String, @Nullable Object>> marks = new ArrayList<>();
        List<DrawnMark> there = new ArrayList<>();
        for (SeenEvent event : voice.seen().events()) {
            if (event instanceof SeenEvent.Drawn drawn) {
                Map<String, @Nullable Object> made = new LinkedHashMap<>();
                made.put("on", s(event.atUs()));
                made.put("off", null);
                made.put("mark", mark(drawn.mark()));
                marks.add(made);
                there.add(drawn.mark());
            } else if (event instanceof SeenEvent.Removed removed) {
                remove(removed, marks, there);
            }
        }
        Map<String, Object> all = new LinkedHashMap<>();
        all.put("pieces", pieces);
        all.put("marks", marks);
        all.put(
                "captions",
                voice.captions().stream()
                        .map(c -> Map.of("from", s(c.fromUs()), "to", s(c.toUs()), "text", c.text()))
                        .toList());
        return all;
    }

    /** The newest equal mark that is still there, as {@link SeenTrack#seenAt} takes it. */
    private static void remove(
            SeenEvent.Removed removed, List<Map<String, @Nullable Object>> marks, List<DrawnMark> drawn) {
        for (int i = drawn.size() - 1; i >= 0; i--) {
            if (drawn.get(i).equals(removed.mark()) && marks.get(i).get("off") == null) {
                marks.get(i).put("off", s(removed.atUs()));
                return;
            }
        }
    }
}
