package org.sideport.workflow;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.Scorer;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.timing.CsvTable;

/** Brings in many ratings at once from a long CSV: {@code case,rubric,version,assessor,self,item,points,not_applicable,comment}. */
public final class LoadRatings {

    private final Workspace workspace;

    public LoadRatings(Workspace workspace) {
        this.workspace = workspace;
    }

    private record Key(String caseCode, String rubric, String version, String assessor, boolean self) {

        static Key of(CsvTable.Row row) {
            String self = row.text("self").toLowerCase(Locale.ROOT);
            if (!List.of("true", "false", "").contains(self)) {
                throw row.fault(
                        "\"" + self + "\" is neither true nor false", "write true for a self-rating, else false");
            }
            return new Key(
                    row.required("case").toLowerCase(Locale.ROOT),
                    row.required("rubric"),
                    row.required("version"),
                    row.required("assessor"),
                    self.equals("true"));
        }
    }

    /**
     * Takes in all rows or nothing; complete ratings are signed.
     *
     * @return number of ratings
     * @throws InputException at the first fault, naming file, line and remedy
     */
    public int load(Path file) {
        return load(file, Map.of());
    }

    /** @param moments of the recording that marks rest on, by {@link #mark} */
    int load(Path file, Map<String, List<MediaTime>> moments) {
        MarkCase.requireMarker(workspace);
        Map<Key, List<CsvTable.Row>> byRating = new LinkedHashMap<>();
        for (CsvTable.Row row : CsvTable.read(file).rows()) {
            byRating.computeIfAbsent(Key.of(row), key -> new ArrayList<>()).add(row);
        }
        Map<String, Vocabularies.RubricText> rubrics = new LinkedHashMap<>();
        new Vocabularies(workspace)
                .rubricTexts()
                .forEach(r -> rubrics.put(r.rubric().id(), r));
        workspace.change(stores -> byRating.forEach((key, rows) -> {
            CsvTable.Row first = rows.get(0);
            Vocabularies.RubricText text = rubrics.get(key.rubric());
            if (text == null || !text.rubric().version().equals(key.version())) {
                throw first.fault(
                        "there is no rubric " + key.rubric() + " " + key.version(),
                        "put its file into the folder rubrics of the workspace");
            }
            Rating rating = rating(key, rows, text.rubric());
            Rating resting = rating.withScores(rating.scores().stream()
                    .map(s -> s.withEvidence(
                            moments.getOrDefault(mark(first.required("case"), rating.assessor(), s.item()), List.of())))
                    .toList());
            atRow(first, () -> store(stores, resting, text, first.required("case")));
        }));
        return byRating.size();
    }

    /** Names one mark of an item. */
    static String mark(String caseCode, String assessor, String item) {
        return caseCode + " " + assessor + " " + item;
    }

    private static boolean store(Stores stores, Rating rating, Vocabularies.RubricText text, String caseCode) {
        Codes.require("an assessor", rating.assessor());
        MarkCase.requireMay(stores, caseCode, rating.assessor(), rating.self());
        SurgicalCase rated = stores.cases().get(caseCode);
        MarkCase.requireFit(rated, rating.assessor(), rating.self(), text.rubric());
        MarkCase.requireConsent(stores, rated);
        if (stores.ratings().ofCase(rated.code()).stream().anyMatch(r -> r.isSameWork(rating))) {
            throw new InputException(
                    rating.assessor() + " has rated " + rated.code() + " already",
                    null,
                    "take its rows out of the file; amend the rating, with a reason, if it is to change");
        }
        boolean complete = Scorer.score(text.rubric(), rating).complete();
        stores.ratings().keepRubric(rating.rubric(), rating.rubricVersion(), text.json());
        long id = stores.ratings().addDraft(rated.code(), rating, null, null);
        if (complete) {
            stores.ratings().sign(id, Instant.now());
        }
        return complete;
    }

    private static Rating rating(Key key, List<CsvTable.Row> rows, Rubric rubric) {
        List<ItemScore> scores = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        for (CsvTable.Row row : rows) {
            Rubric.Item item = rubric.item(row.required("item"))
                    .orElseThrow(() -> row.fault("unknown item \"" + row.text("item") + "\"", "see the rubric's file"));
            if (!seen.add(item.id())) {
                throw row.fault(item.id() + " is marked twice", "keep one of the two rows");
            }
            boolean excused = !row.text("not_applicable").isEmpty();
            boolean marked = !row.text("points").isEmpty();
            if (excused && marked) {
                throw row.fault(item.id() + " has both points and a reason for having none", "keep one of the two");
            } else if (excused) {
                scores.add(new ItemScore.Excused(item.id(), reason(row, item), row.text("comment")));
            } else if (marked) {
                scores.add(new ItemScore.Marked(item.id(), points(row, rubric, item), row.text("comment")));
            }
        }
        return new Rating(rubric.id(), rubric.version(), key.assessor(), key.self(), false, scores, "");
    }

    private static NotApplicable reason(CsvTable.Row row, Rubric.Item item) {
        NotApplicable reason = atRow(row, () -> NotApplicable.parse(row.text("not_applicable")));
        if (!item.notApplicable().contains(reason)) {
            throw row.fault(
                    item.id() + " cannot be left out as " + reason.id(), "give it points, or choose another reason");
        }
        return reason;
    }

    private static <T> T atRow(CsvTable.Row row, Supplier<T> work) {
        try {
            return work.get();
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
