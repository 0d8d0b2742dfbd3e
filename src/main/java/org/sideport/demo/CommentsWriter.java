package org.sideport.demo;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.MarkColour;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** Writes what assessor A1 has to say about the recordings, and one trainee's answer, as the comments of a case bundle. */
final class CommentsWriter {

    private static final String ASSESSOR = "A1";
    private static final String RUBRIC = "phaco-competency";

    private final JsonMapper json =
            JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

    void write(Path folder) throws IOException {
        Map<String, Object> cases = new LinkedHashMap<>();
        cases.put(
                "D-001",
                List.of(
                        comment(
                                "D-001 1",
                                CommentTone.PRAISE,
                                "The entry is square and the tunnel long enough: it closes by itself at the end.",
                                "main_incision",
                                10_200_000,
                                13_000_000L,
                                List.of(),
                                List.of()),
                        comment(
                                "D-001 2",
                                CommentTone.IMPROVE,
                                "Let go and take the flap again before the last quarter: the tip is far from where it"
                                        + " tears.",
                                "rhexis_completion",
                                25_000_000,
                                null,
                                List.of(
                                        mark(DrawnMark.Kind.ARROW, MarkColour.YELLOW, 0.26, 0.2, 0.44, 0.37),
                                        words(MarkColour.YELLOW, 0.08, 0.18, "hold it here")),
                                List.of()),
                        comment(
                                "D-001 3",
                                CommentTone.QUESTION,
                                "What made you hand over here, and what would you try first next time?",
                                null,
                                45_920_000,
                                null,
                                List.of(),
                                List.of(answer(
                                        "D-001 3a",
                                        "T02",
                                        "The last bridge would not part. I would turn the nucleus and go deeper"
                                                + " first.")))));
        cases.put(
                "D-002",
                List.of(comment(
                        "D-002 1",
                        CommentTone.IMPROVE,
                        "Lower the flow before leaving the eye: the iris follows the fluid out.",
                        "hydrodissection",
                        31_800_000,
                        33_200_000L,
                        List.of(mark(DrawnMark.Kind.ELLIPSE, MarkColour.SKY_BLUE, 0.54, 0.72, 0.68, 0.9)),
                        List.of())));
        cases.put(
                "D-003",
                List.of(
                        comment(
                                "D-003 1",
                                CommentTone.IMPROVE,
                                "The edge turns outwards here. Stop, deepen the chamber, and only then go on.",
                                "rhexis_completion",
                                24_724_700,
                                null,
                                List.of(mark(DrawnMark.Kind.ELLIPSE, MarkColour.YELLOW, 0.54, 0.26, 0.69, 0.5)),
                                List.of()),
                        comment(
                                "D-003 2",
                                CommentTone.PRAISE,
                                "Calm, and brought back with short pulls towards the middle.",
                                "rhexis_completion",
                                31_231_200,
                                35_000_000L,
                                List.of(),
                                List.of())));
        Files.writeString(
                folder.resolve("comments.json"), json.writeValueAsString(cases) + "\n", StandardCharsets.UTF_8);
    }

    private static Map<String, Object> comment(
            String id,
            CommentTone tone,
            String text,
            @Nullable String item,
            long fromUs,
            @Nullable Long toUs,
            List<Map<String, Object>> drawing,
            List<Map<String, Object>> replies) {
        Map<String, Object> one = new LinkedHashMap<>();
        one.put("id", idOf(id));
        one.put("author", ASSESSOR);
        one.put("tone", tone.id());
        one.put("text", text);
        one.put("rubric", item == null ? null : RUBRIC);
        one.put("item", item);
        one.put("from_us", fromUs);
        one.put("to_us", toUs);
        one.put("drawing", drawing);
        one.put("voice", null);
        one.put("replies", replies);
        return one;
    }

    private static String idOf(String name) {
        return UUID.nameUUIDFromBytes(("demo " + name).getBytes(StandardCharsets.UTF_8))
                .toString();
    }

    private static Map<String, Object> answer(String id, String author, String text) {
        return Map.of("id", idOf(id), "author", author, "text", text);
    }

    private static Map<String, Object> mark(
            DrawnMark.Kind kind, MarkColour colour, double fromX, double fromY, double toX, double toY) {
        return drawn(kind, colour, List.of(List.of(fromX, fromY), List.of(toX, toY)), "");
    }

    private static Map<String, Object> words(MarkColour colour, double x, double y, String words) {
        return drawn(DrawnMark.Kind.WORDS, colour, List.of(List.of(x, y)), words);
    }

    private static Map<String, Object> drawn(
            DrawnMark.Kind kind, MarkColour colour, List<List<Double>> points, String words) {
        Map<String, Object> one = new LinkedHashMap<>();
        one.put("kind", kind.id());
        one.put("colour", colour.id());
        one.put("points", points);
        one.put("words", words);
        return one;
    }
}
