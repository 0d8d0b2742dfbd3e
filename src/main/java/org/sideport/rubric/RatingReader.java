package org.sideport.rubric;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import tools.jackson.databind.JsonNode;

/** Reads rating files: one assessor's marks of one case. Items may be missing; whatever is there must fit the rubric. */
public final class RatingReader {

    private RatingReader() {}

    /** @throws InputException if the file cannot be read, has a fault or was made for another rubric */
    public static Rating read(Path file, Rubric rubric) {
        return read(JsonSource.text(file), file.toString(), rubric);
    }

    /**
     * @param name of the file, for messages
     * @throws InputException if the text has a fault or was made for another rubric
     */
    public static Rating read(String json, String name, Rubric rubric) {
        JsonSource source = JsonSource.parse(json, name);
        source.refuse(SchemaCheck.RATING.check(source), null);
        JsonNode root = source.root();
        List<Finding> findings = new ArrayList<>();
        if (!ref(root).equals(RubricRef.of(rubric))) {
            findings.add(source.error(
                    ref(root).id().equals(rubric.id()) ? "/version" : "/rubric",
                    "the rating was made with " + ref(root) + ", not with " + RubricRef.of(rubric),
                    "choose the rubric that it was made with; marks do not carry over between versions"));
        }
        List<ItemScore> scores = scores(source, rubric, findings);
        source.refuse(findings, null);
        return new Rating(
                rubric.id(),
                rubric.version(),
                Fields.text(root, "assessor"),
                Fields.flag(root, "self"),
                Fields.flag(root, "blind"),
                scores,
                Fields.text(root, "comment"),
                Fields.list(root, "actions", JsonNode::stringValue));
    }

    /**
     * The rubric that a rating file asks for, so that it can be looked up before the rating is read.
     *
     * @throws InputException if the file cannot be read or has a fault
     */
    public static RubricRef rubricOf(Path file) {
        return rubricOf(JsonSource.text(file), file.toString());
    }

    /**
     * @param name of the file, for messages
     * @throws InputException if the text has a fault
     */
    public static RubricRef rubricOf(String json, String name) {
        JsonSource source = JsonSource.parse(json, name);
        source.refuse(SchemaCheck.RATING.check(source), null);
        return ref(source.root());
    }

    private static RubricRef ref(JsonNode root) {
        return new RubricRef(Fields.text(root, "rubric"), Fields.text(root, "version"));
    }

    private static List<ItemScore> scores(JsonSource source, Rubric rubric, List<Finding> findings) {
        List<ItemScore> scores = new ArrayList<>();
        Map<String, String> seen = new HashMap<>();
        Ids.each(source.root(), "", "scores", (node, path) -> {
            ItemScore score = score(source, rubric, node, path, findings);
            if (score == null) {
                return;
            }
            ScoreFault fault = ScoreFault.of(rubric, score);
            String before = seen.putIfAbsent(score.item(), path);
            if (fault != null) {
                findings.add(source.error(path, fault.what(), fault.remedy()));
            } else if (before != null) {
                findings.add(source.error(
                        path,
                        "\"" + score.item() + "\" is marked twice, first at " + before,
                        "keep one of the two marks"));
            }
            scores.add(score);
        });
        return scores;
    }

    private static @Nullable ItemScore score(
            JsonSource source, Rubric rubric, JsonNode node, String path, List<Finding> findings) {
        String item = Fields.text(node, "item");
        String comment = Fields.text(node, "comment");
        @Nullable Integer points = Fields.wholeOrNull(node, "points");
        @Nullable Integer level = Fields.wholeOrNull(node, "level");
        @Nullable
        Double value =
                node.path("value").isNumber() ? (Double) node.path("value").doubleValue() : null;
        @Nullable String reason = Fields.textOrNull(node, "not_applicable");
        List<MediaTime> evidence = Fields.list(node, "evidence_us", t -> MediaTime.ofMicros(t.longValue()));
        int given = (points == null ? 0 : 1)
                + (level == null ? 0 : 1)
                + (reason == null ? 0 : 1)
                + (value == null || points != null ? 0 : 1);
        if (given != 1) {
            findings.add(source.error(
                    path,
                    "\"" + item + "\" has " + (given == 0 ? "neither" : "more than one of")
                            + (given == 0 ? " points nor not_applicable" : " points, level, value and not_applicable"),
                    given == 0
                            ? "give it one of the two, or leave the item out while it is not marked yet"
                            : "keep one of them"));
            return null;
        }
        if (reason != null) {
            return new ItemScore.Excused(item, NotApplicable.parse(reason), comment, evidence);
        }
        if (value != null && points == null) {
            Rubric.Item counted = rubric.item(item).orElse(null);
            // what does not fit gets no points that could hide it
            int reached = counted != null && counted.takes(value)
                    ? counted.band(value).points()
                    : Integer.MIN_VALUE;
            return new ItemScore.Marked(item, reached, value, comment, evidence);
        }
        int mark = points != null ? points : level != null ? level : 0;
        return new ItemScore.Marked(item, mark, value, comment, evidence);
    }
}
