package org.sideport.rubric;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.Rating;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** Writes ratings as {@link RatingReader} reads them. */
public final class RatingWriter {

    private static final JsonMapper MAPPER =
            JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

    private RatingWriter() {}

    /** The rating as indented JSON, its keys in a fixed order; ends with a line feed. */
    public static String write(Rating rating) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("rubric", rating.rubric());
        json.put("version", rating.rubricVersion());
        if (!rating.assessor().isEmpty()) {
            json.put("assessor", rating.assessor());
        }
        json.put("self", rating.self());
        json.put("blind", rating.blind());
        List<Map<String, Object>> scores =
                rating.scores().stream().map(RatingWriter::score).toList();
        json.put("scores", scores);
        json.put("comment", rating.comment());
        if (!rating.actions().isEmpty()) {
            json.put("actions", rating.actions());
        }
        return MAPPER.writeValueAsString(json).replace("\r\n", "\n") + "\n";
    }

    private static Map<String, Object> score(ItemScore score) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("item", score.item());
        if (score instanceof ItemScore.Marked marked) {
            json.put("points", marked.points());
            if (marked.value() != null) {
                json.put("value", marked.value());
            }
        } else if (score instanceof ItemScore.Excused excused) {
            json.put("not_applicable", excused.reason().id());
        }
        if (!score.comment().isEmpty()) {
            json.put("comment", score.comment());
        }
        if (!score.evidence().isEmpty()) {
            json.put(
                    "evidence_us",
                    score.evidence().stream().map(MediaTime::micros).toList());
        }
        return json;
    }
}
