package org.sideport.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.RatingReader;
import org.sideport.rubric.RatingWriter;
import tools.jackson.databind.JsonNode;

/**
 * Marks that could not be saved because a shared database was away, each draft in a file: {@code {"case", "rating",
 * "seen": [rating, …]}}.
 */
final class PendingMarks {

    private final PendingFolder folder;

    PendingMarks(Path workspace) {
        this.folder = new PendingFolder(workspace);
    }

    /**
     * @param seen what the draft may hold in the store: as it was last known, or as it was last tried to save
     */
    record Kept(Rating rating, Set<Rating> seen) {}

    Path keep(String caseCode, Rating rating, Set<Rating> seen) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("case", caseCode);
        json.put("rating", PendingFolder.MAPPER.readTree(RatingWriter.write(rating)));
        List<JsonNode> forms = new ArrayList<>();
        seen.forEach(one -> forms.add(PendingFolder.MAPPER.readTree(RatingWriter.write(one))));
        json.put("seen", forms);
        return folder.keep(file(caseCode, rating), json);
    }

    /**
     * @param draft names the assessor, part and rubric
     */
    Optional<Kept> find(String caseCode, Rating draft, Rubric rubric) {
        Path file = file(caseCode, draft);
        return folder.find(file, json -> {
            Set<Rating> seen = new LinkedHashSet<>();
            for (JsonNode one : json.path("seen")) {
                seen.add(rating(one, file, rubric));
            }
            return new Kept(rating(json.path("rating"), file, rubric), seen);
        });
    }

    private static Rating rating(JsonNode json, Path file, Rubric rubric) {
        return RatingReader.read(PendingFolder.MAPPER.writeValueAsString(json), file.toString(), rubric);
    }

    void forget(String caseCode, Rating draft) {
        folder.forget(file(caseCode, draft));
    }

    /** Makes the marks no longer be taken up; they can still be read. */
    Path putAside(String caseCode, Rating draft) {
        return folder.putAside(file(caseCode, draft));
    }

    Path file(String caseCode, Rating draft) {
        return folder.file(caseCode, draft.rubric(), draft.assessor(), String.valueOf(draft.self()));
    }
}
