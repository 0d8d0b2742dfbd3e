package org.sideport.report.exchange;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.report.bundle.CaseContent;
import org.sideport.report.bundle.Parts;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.timing.Boundary;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * {@link Detail} as JSON: one key that says what it is ({@code phase}, {@code event}, {@code comment}) with the same fields as
 * in a case bundle, whose schema it is held against ({@code rubrics/case-content.schema.json}), and beside it what was
 * confirmed.
 */
final class DetailJson {

    private static final String STYLE = "style";
    private static final String CONFIRMED = "confirmed_us";

    private final Schema spans;
    private final Schema events;
    private final Schema comments;

    DetailJson() {
        JsonNode root = StandardJson.MAPPER.readTree(ShippedRubrics.text("case-content.schema.json"));
        JsonNode tagging = root.at("/properties/taggings/items/properties");
        spans = part(root, tagging.at("/spans/items"));
        events = part(root, tagging.at("/events/items"));
        comments = part(root, root.at("/properties/comments/items"));
    }

    private static Schema part(JsonNode root, JsonNode part) {
        ObjectNode own = (ObjectNode) part.deepCopy();
        own.set("$defs", root.get("$defs"));
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(own);
    }

    static ObjectNode of(PhaseSpan span, Annotated from) {
        ObjectNode detail = StandardJson.object();
        Tagging one = new Tagging(from.tagging().style(), List.of(span), List.of());
        CaseContent.TaggingPart part = Parts.of(from.annotator(), one, Set.of());
        detail.set("phase", StandardJson.MAPPER.valueToTree(part.spans().get(0)));
        detail.put(STYLE, part.style());
        var confirmed = detail.putArray(CONFIRMED);
        Boundary.kept(from.confirmed(), one).stream().sorted().forEach(b -> confirmed.add(b.at().micros()));
        return detail;
    }

    static ObjectNode of(PointEvent event, Annotated from) {
        ObjectNode detail = StandardJson.object();
        Tagging one = new Tagging(from.tagging().style(), List.of(), List.of(event));
        detail.set(
                "event",
                StandardJson.MAPPER.valueToTree(
                        Parts.of(from.annotator(), one, Set.of()).events().get(0)));
        var confirmed = detail.putArray(CONFIRMED);
        Boundary.kept(from.confirmed(), one).forEach(b -> confirmed.add(b.at().micros()));
        return detail;
    }

    /** Without its voice. */
    static ObjectNode of(CommentThread thread) {
        ObjectNode detail = StandardJson.object();
        detail.set("comment", StandardJson.MAPPER.valueToTree(Parts.of(Threads.withoutVoice(thread))));
        return detail;
    }

    /** True if the node is one of these and no other program's data. */
    static boolean isOne(JsonNode node) {
        return node.isObject() && (node.has("phase") || node.has("event") || node.has("comment"));
    }

    /** @throws InputException at the place if it is not as this program writes it */
    Detail read(JsonNode node, String place) {
        try {
            if (node.has("phase")) {
                return phase(node, place);
            }
            if (node.has("event")) {
                return event(node, place);
            }
            require(comments, node.path("comment"), place + ", comment");
            CaseContent.CommentPart part =
                    StandardJson.MAPPER.treeToValue(node.path("comment"), CaseContent.CommentPart.class);
            Comment comment = Parts.comment(part, part.author());
            return new Detail.OfComment(new CommentThread(
                    comment.withVoice(null),
                    part.replies().stream()
                            .map(r -> Parts.reply(r, comment.id(), r.author()))
                            .toList(),
                    false));
        } catch (JacksonException | IllegalArgumentException e) {
            throw new InputException(
                    "cannot be understood: " + e.getMessage(),
                    place,
                    "write the file again with the program it is of",
                    e);
        }
    }

    private Detail phase(JsonNode node, String place) {
        require(spans, node.path("phase"), place + ", phase");
        CaseContent.SpanPart part = StandardJson.MAPPER.treeToValue(node.path("phase"), CaseContent.SpanPart.class);
        CaseContent.TaggingPart whole =
                new CaseContent.TaggingPart("", styleOf(node), List.of(part), List.of(), List.of());
        Tagging tagging = Parts.tagging(whole);
        return new Detail.OfPhase(tagging.spans().get(0), tagging.style(), confirmed(node, place));
    }

    private static String styleOf(JsonNode node) {
        return node.path(STYLE).asString(TaggingStyle.START_AND_END.id()).toLowerCase(Locale.ROOT);
    }

    private Detail event(JsonNode node, String place) {
        require(events, node.path("event"), place + ", event");
        CaseContent.EventPart part = StandardJson.MAPPER.treeToValue(node.path("event"), CaseContent.EventPart.class);
        CaseContent.TaggingPart whole =
                new CaseContent.TaggingPart("", TaggingStyle.START_AND_END.id(), List.of(), List.of(part), List.of());
        return new Detail.OfEvent(
                Parts.tagging(whole).events().get(0), !confirmed(node, place).isEmpty());
    }

    private static Set<MediaTime> confirmed(JsonNode node, String place) {
        Set<MediaTime> times = new HashSet<>();
        for (JsonNode time : node.path(CONFIRMED)) {
            if (!time.isIntegralNumber() || time.longValue() < 0) {
                throw new InputException("not a time in microseconds: " + time, place + ", " + CONFIRMED, null);
            }
            times.add(MediaTime.ofMicros(time.longValue()));
        }
        return times;
    }

    private static void require(Schema schema, JsonNode node, String place) {
        List<Error> errors = schema.validate(node);
        if (!errors.isEmpty()) {
            Error first = errors.get(0);
            String at = first.getInstanceLocation().toString();
            throw new InputException(
                    first.getMessage(),
                    place + (at.isEmpty() ? "" : ", " + at),
                    "write the file again with the program it is of, or take this entry out");
        }
    }
}
