package org.sideport.workflow;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.Scorer;
import org.sideport.store.Workspace;
import org.sideport.timing.CsvTable;

/** Brings in many ratings at once from a long CSV: {@code case,rubric,version,assessor,self,item,points,not_applicable,comment}. */
public final class LoadRatings {

    private final Workspace workspace;

    public LoadRatings(Workspace workspace) {
        this.workspace = workspace;
    }

    private record Key(String caseCode, String assessor, boolean self) {}

    /**
     * Takes in all rows or nothing; complete ratings are signed.
     *
     * @return number of ratings
     * @throws InputException at the first fault, naming file, line and remedy
     */
    public int load(Path file) {
        Map<Key, List<CsvTable.Row>> byRating = new LinkedHashMap<>();
        for (CsvTable.Row row : CsvTable.read(file).rows()) {
            byRating.computeIfAbsent(
                            new Key(
                                    row.required("case"),
                                    row.required("assessor"),
                                    row.text("self").equalsIgnoreCase("true")),
                            key -> new ArrayList<>())
                    .add(row);
        }
        Vocabularies vocabularies = new Vocabularies(workspace);
        Map<String, Vocabularies.RubricText> rubrics = new LinkedHashMap<>();
        vocabularies.rubricTexts().forEach(r -> rubrics.put(r.rubric().id(), r));
        workspace.change(stores -> byRating.forEach((key, rows) -> {
            CsvTable.Row first = rows.get(0);
            Vocabularies.RubricText text = rubrics.get(first.required("rubric"));
            if (text == null || !text.rubric().version().equals(first.required("version"))) {
                throw first.fault(
                        "there is no rubric " + first.text("rubric") + " " + first.text("version"),
                        "put its file into the folder rubrics of the workspace");
            }
            Rating rating = rating(key, rows, text.rubric());
            stores.ratings().keepRubric(rating.rubric(), rating.rubricVersion(), text.json());
            long id = stores.ratings().addDraft(key.caseCode(), rating, null, null);
            if (Scorer.score(text.rubric(), rating).complete()) {
                stores.ratings().sign(id, Instant.now());
            }
        }));
        return byRating.size();
    }

    private static Rating rating(Key key, List<CsvTable.Row> rows, Rubric rubric) {
        List<ItemScore> scores = new ArrayList<>();
        for (CsvTable.Row row : rows) {
            Rubric.Item item = rubric.item(row.required("item"))
                    .orElseThrow(() -> row.fault("unknown item \"" + row.text("item") + "\"", "see the rubric's file"));
            String reason = row.text("not_applicable");
            if (!reason.isEmpty()) {
                scores.add(new ItemScore.Excused(item.id(), reason(row, reason), row.text("comment")));
            } else if (!row.text("points").isEmpty()) {
                scores.add(new ItemScore.Marked(item.id(), points(row, rubric, item), row.text("comment")));
            }
        }
        return new Rating(rubric.id(), rubric.version(), key.assessor(), key.self(), false, scores, "");
    }

    private static NotApplicable reason(CsvTable.Row row, String text) {
        try {
            return NotApplicable.parse(text);
        } catch (InputException e) {
            throw e.at(row.place());
        }
    }

    private static int points(CsvTable.Row row, Rubric rubric, Rubric.Item item) {
        String text = row.text("points");
        return rubric.pointsOf(item).stream()
                .filter(p -> String.valueOf(p).equals(text))
                .findFirst()
                .orElseThrow(() -> row.fault(
                        item.id() + " cannot have " + text + " points", "possible are " + rubric.pointsOf(item)));
    }
}
