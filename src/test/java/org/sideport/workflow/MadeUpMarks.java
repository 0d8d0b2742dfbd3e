package org.sideport.workflow;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;

/**
 * A unit with made-up rubrics and marks, stored for real. Rubric "scale" has one number from 0 to 1000, so that a share
 * can be set to a thousandth; "grade" one global grade from 1 to 5; "five" five items of 1 to 5 points.
 */
public final class MadeUpMarks {

    private final Workspace workspace;
    private final Map<String, String> texts = new HashMap<>();

    public MadeUpMarks(Workspace workspace) {
        this.workspace = workspace;
        String bands = IntStream.rangeClosed(0, 1000)
                .mapToObj(i -> "{\"from\": " + i + ", \"points\": " + i + ", \"text\": \"\"}")
                .collect(Collectors.joining(", "));
        write(
                "scale",
                "[]",
                "{\"id\": \"score\", \"domain\": \"all\", \"title\": \"Score\", \"kind\": \"count\", \"bands\": ["
                        + bands + "]}");
        write("grade", levels(), item("overall"));
        write(
                "five",
                levels(),
                IntStream.rangeClosed(1, 5).mapToObj(i -> item("i" + i)).collect(Collectors.joining(", ")));
    }

    private static String levels() {
        return IntStream.rangeClosed(1, 5)
                .mapToObj(i -> "{\"points\": " + i + ", \"label\": \"L" + i + "\", \"meaning\": \"level " + i + "\"}")
                .collect(Collectors.joining(", ", "[", "]"));
    }

    private static String item(String id) {
        String anchors = IntStream.rangeClosed(1, 5)
                .mapToObj(i -> "{\"points\": " + i + ", \"text\": \"anchor " + i + "\"}")
                .collect(Collectors.joining(", "));
        return "{\"id\": \"" + id + "\", \"domain\": \"all\", \"title\": \"" + id + "\", \"anchors\": [" + anchors
                + "]}";
    }

    private void write(String id, String levels, String items) {
        String json = "{\"id\": \"" + id + "\", \"version\": \"1.0.0\", \"title\": \"" + id
                + "\", \"procedure\": \"phaco\", \"source\": \"made up for a test\", \"levels\": " + levels
                + ", \"domains\": [{\"id\": \"all\", \"title\": \"All\"}], \"items\": [" + items + "]}";
        texts.put(id, json);
        try {
            Files.createDirectories(workspace.dir().resolve("rubrics"));
            Files.writeString(workspace.dir().resolve("rubrics").resolve(id + ".json"), json);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A case of a trainee on the given day of 2026. */
    public void addCase(String code, String trainee, int dayOfYear) {
        workspace.change(s -> addCase(s, code, trainee, dayOfYear));
    }

    private static void addCase(Stores s, String code, String trainee, int dayOfYear) {
        s.cases().add(new SurgicalCase(code, trainee, LocalDate.ofYearDay(2026, dayOfYear), "phaco", Map.of(), null));
    }

    /** A signed mark. */
    public void mark(String caseCode, String assessor, String rubric, boolean blind, Map<String, Integer> points) {
        workspace.change(s -> rate(s, caseCode, assessor, rubric, false, blind, points));
    }

    /** A signed mark of the trainee's own. */
    public void markOneself(String caseCode, String trainee, String rubric, Map<String, Integer> points) {
        workspace.change(s -> rate(s, caseCode, trainee, rubric, true, false, points));
    }

    private void rate(
            Stores s,
            String caseCode,
            String assessor,
            String rubric,
            boolean self,
            boolean blind,
            Map<String, Integer> points) {
        List<ItemScore> scores = new ArrayList<>();
        points.forEach((item, value) -> scores.add(new ItemScore.Marked(item, value, "")));
        s.ratings().keepRubric(rubric, "1.0.0", texts.get(rubric));
        long id = s.ratings()
                .addDraft(caseCode, new Rating(rubric, "1.0.0", assessor, self, blind, scores, ""), null, null);
        s.ratings().sign(id, Instant.parse("2026-06-01T10:00:00Z"));
    }

    /** A case of its own for each performance, with a share of so many thousandths; and a grade, if one is given. */
    public void performances(String prefix, String trainee, int[] thousandths, int[] grades) {
        workspace.change(s -> {
            for (int i = 0; i < thousandths.length; i++) {
                String code = prefix + "-" + (i + 1);
                addCase(s, code, trainee.isEmpty() ? "T-" + prefix + i : trainee, 1 + i % 300);
                rate(s, code, "A1", "scale", false, true, Map.of("score", thousandths[i]));
                if (grades.length > 0) {
                    rate(s, code, "A1", "grade", false, true, Map.of("overall", grades[i]));
                }
            }
        });
    }

    /** A worked example: grades 1 to 5 and scores of 100 of 13 performances (own, synthetic data). */
    public void borderlineExample() {
        int[] grades = {1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4, 5, 5};
        int[] scores = {38, 44, 51, 47, 55, 62, 58, 66, 74, 71, 78, 88, 84};
        performances("B", "", IntStream.of(scores).map(s -> 10 * s).toArray(), grades);
    }

    /** Judgements of the worked example of 4 judges and 5 items, by judge. */
    public static Map<String, Map<String, Double>> angoffExample() {
        int[][] points = {{3, 3, 4, 3, 4}, {4, 3, 4, 3, 3}, {3, 3, 3, 3, 4}, {4, 4, 4, 3, 4}};
        Map<String, Map<String, Double>> judgements = new java.util.LinkedHashMap<>();
        for (int j = 0; j < points.length; j++) {
            Map<String, Double> own = new java.util.LinkedHashMap<>();
            for (int i = 0; i < points[j].length; i++) {
                own.put("i" + (i + 1), (double) points[j][i]);
            }
            judgements.put("A" + (j + 1), own);
        }
        return judgements;
    }
}
