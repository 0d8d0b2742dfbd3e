package org.sideport.report.exchange;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PicturePoint;
import org.sideport.model.PointEvent;
import org.sideport.model.Recording;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * W3C Web Annotations (Data Model, Recommendation 2017, JSON-LD): one for each phase, event, comment and answer. Times are media
 * fragments of the file in which they lie, drawings an SvgSelector that refines them; what the model has no word for goes as
 * JSON under a term of our own.
 */
public final class AnnotationWriter {

    /** Key under which {@link Detail} goes. */
    static final String OWN = "sideport:detail";

    private static final String CONTEXT = "http://www.w3.org/ns/anno.jsonld";
    private static final String FRAGMENTS = "http://www.w3.org/TR/media-frags/";

    /** A fragment must have a length: 1 µs stands for a moment. */
    private static final long MOMENT_US = 1;

    private final Annotated from;
    private final String made;

    private AnnotationWriter(Annotated from, Instant made) {
        this.from = from;
        this.made = made.toString();
    }

    /** A collection with one page. */
    public static String write(Annotated from, Instant made) {
        return StandardJson.pretty(new AnnotationWriter(from, made).collection());
    }

    private ObjectNode collection() {
        ObjectNode collection = StandardJson.object();
        ArrayNode context = collection.putArray("@context");
        context.add(CONTEXT);
        ObjectNode terms = context.addObject();
        terms.put("sideport", "urn:sideport:terms:");
        terms.putObject(OWN).put("@type", "@json");
        String id = Digests.urn("annotations", from.code(), made);
        collection.put("id", id);
        collection.put("type", "AnnotationCollection");
        collection.put("label", from.code());
        ObjectNode page = StandardJson.object();
        page.put("id", id + "#1");
        page.put("type", "AnnotationPage");
        page.put("startIndex", 0);
        ArrayNode items = page.putArray("items");
        from.tagging().spans().forEach(span -> items.add(phase(span)));
        from.tagging().events().forEach(event -> items.add(event(event)));
        for (CommentThread thread : from.threads()) {
            if (Threads.saysWithoutVoice(thread.comment())) {
                items.add(comment(thread));
                thread.replies().forEach(reply -> items.add(reply(reply)));
            }
        }
        collection.put("total", items.size());
        collection.set("first", page);
        return collection;
    }

    private ObjectNode phase(PhaseSpan span) {
        ObjectNode one = annotation(
                Digests.urn(
                        "phase",
                        from.code(),
                        from.annotator(),
                        span.phase(),
                        span.start().toSecondsText()),
                "classifying",
                from.annotator());
        body(one, "classifying", from.nameOf(span));
        MediaTime end = from.endOf(span);
        target(one, span.start(), end, List.of());
        one.set(OWN, DetailJson.of(span, from));
        return one;
    }

    private ObjectNode event(PointEvent event) {
        ObjectNode one = annotation(
                Digests.urn(
                        "event",
                        from.code(),
                        from.annotator(),
                        event.kind(),
                        event.at().toSecondsText()),
                "tagging",
                from.annotator());
        ArrayNode bodies = body(one, "tagging", from.nameOfEvent(event.kind()));
        if (!event.note().isBlank()) {
            add(bodies, "describing", event.note());
        }
        target(one, event.at(), null, List.of());
        one.set(OWN, DetailJson.of(event, from));
        return one;
    }

    private ObjectNode comment(CommentThread thread) {
        Comment comment = thread.comment();
        String motivation = comment.tone() == CommentTone.QUESTION ? "questioning" : "commenting";
        ObjectNode one = annotation(id(comment.id()), motivation, comment.author());
        if (!comment.text().isEmpty()) {
            body(one, motivation, comment.text());
        }
        target(one, comment.from(), comment.to(), comment.drawing());
        one.set(OWN, DetailJson.of(thread));
        return one;
    }

    private ObjectNode reply(CommentReply reply) {
        ObjectNode one = annotation(id(reply.id()), "replying", reply.author());
        body(one, "replying", reply.text());
        one.put("target", id(reply.comment()));
        return one;
    }

    private static String id(String own) {
        return "urn:uuid:" + Digests.asUuid(own);
    }

    private ObjectNode annotation(String id, String motivation, String creator) {
        ObjectNode one = StandardJson.object();
        one.put("id", id);
        one.put("type", "Annotation");
        one.put("motivation", motivation);
        if (!creator.isEmpty()) {
            ObjectNode person = one.putObject("creator");
            person.put("id", "urn:sideport:person:" + creator);
            person.put("type", "Person");
            person.put("nickname", creator);
        }
        one.put("generated", made);
        return one;
    }

    private static ArrayNode body(ObjectNode annotation, String purpose, String text) {
        ArrayNode bodies = annotation.putArray("body");
        add(bodies, purpose, text);
        return bodies;
    }

    private static void add(ArrayNode bodies, String purpose, String text) {
        bodies.addObject()
                .put("type", "TextualBody")
                .put("purpose", purpose)
                .put("format", "text/plain")
                .put("value", text);
    }

    /** One target for each file over which it goes. */
    private void target(ObjectNode one, MediaTime start, @Nullable MediaTime end, List<DrawnMark> drawing) {
        MediaTime until = end == null || !end.isAfter(start) ? MediaTime.ofMicros(start.micros() + MOMENT_US) : end;
        Recording recording = from.recording();
        ArrayNode targets = one.putArray("target");
        if (recording == null) {
            targets.add(part(0, start, until, drawing));
            return;
        }
        int last = recording.segmentAt(MediaTime.ofMicros(until.micros() - 1));
        for (int i = recording.segmentAt(start); i <= last; i++) {
            long offset = recording.startOf(i).micros();
            long ends = offset + recording.segments().get(i).durationUs();
            long from0 = Math.max(start.micros(), offset) - offset;
            long to = (i == last ? until.micros() : Math.min(until.micros(), ends)) - offset;
            targets.add(part(
                    i, MediaTime.ofMicros(from0), MediaTime.ofMicros(to), targets.isEmpty() ? drawing : List.of()));
        }
    }

    private ObjectNode part(int segment, MediaTime start, MediaTime end, List<DrawnMark> drawing) {
        ObjectNode target = StandardJson.object();
        target.put("source", Digests.source(from, segment));
        ObjectNode selector = target.putObject("selector");
        selector.put("type", "FragmentSelector");
        selector.put("conformsTo", FRAGMENTS);
        String times = FragmentTime.stretch(start, end);
        if (drawing.isEmpty()) {
            selector.put("value", times);
        } else {
            selector.put("value", times + "&" + box(drawing));
            ObjectNode shapes = selector.putObject("refinedBy");
            shapes.put("type", "SvgSelector");
            shapes.put("value", SvgShapes.write(drawing));
        }
        return target;
    }

    private static String box(List<DrawnMark> drawing) {
        List<PicturePoint> points =
                drawing.stream().flatMap(m -> m.points().stream()).toList();
        return FragmentTime.box(
                points.stream().mapToDouble(PicturePoint::x).min().orElse(0),
                points.stream().mapToDouble(PicturePoint::y).min().orElse(0),
                points.stream().mapToDouble(PicturePoint::x).max().orElse(1),
                points.stream().mapToDouble(PicturePoint::y).max().orElse(1));
    }
}
