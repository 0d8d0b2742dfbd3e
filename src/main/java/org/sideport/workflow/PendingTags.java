package org.sideport.workflow;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.sideport.model.Tagging;
import org.sideport.report.bundle.CaseContent;
import org.sideport.report.bundle.Parts;
import org.sideport.timing.Boundary;
import tools.jackson.databind.JsonNode;

/**
 * Tags that could not be saved because a shared database was away, each annotator's of a case in a file: {@code {"case",
 * "tagging", "seen": [tagging, …]}}, in the form of a case bundle.
 */
final class PendingTags {

    private final PendingFolder folder;
    private final String caseCode;
    private final String annotator;
    private final Path file;

    PendingTags(Path workspace, String caseCode, String annotator) {
        this.folder = new PendingFolder(workspace);
        this.caseCode = caseCode;
        this.annotator = annotator;
        this.file = folder.file(caseCode, "tags", annotator);
    }

    /**
     * @param seen what the store may hold: as it was last known, or as it was last tried to save
     */
    record Kept(Tagging tagging, Set<Boundary> confirmed, Set<Tagging> seen) {}

    Path file() {
        return file;
    }

    Path keep(Tagging tagging, Set<Boundary> confirmed, Set<Tagging> seen) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("case", caseCode);
        json.put("tagging", Parts.of(annotator, tagging, confirmed));
        json.put(
                "seen",
                seen.stream().map(one -> Parts.of(annotator, one, Set.of())).toList());
        return folder.keep(file, json);
    }

    Optional<Kept> find() {
        return folder.find(file, json -> {
            Set<Tagging> seen = new LinkedHashSet<>();
            for (JsonNode one : json.path("seen")) {
                seen.add(Parts.tagging(part(one)));
            }
            CaseContent.TaggingPart kept = part(json.path("tagging"));
            return new Kept(Parts.tagging(kept), Parts.confirmed(kept), seen);
        });
    }

    private static CaseContent.TaggingPart part(JsonNode json) {
        return PendingFolder.MAPPER.treeToValue(json, CaseContent.TaggingPart.class);
    }

    void forget() {
        folder.forget(file);
    }

    /** Makes the tags no longer be taken up; they can still be read. */
    Path putAside() {
        return folder.putAside(file);
    }
}
