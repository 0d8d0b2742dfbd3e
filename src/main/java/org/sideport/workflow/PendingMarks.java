package org.sideport.workflow;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.sideport.model.InputException;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.RatingReader;
import org.sideport.rubric.RatingWriter;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Marks that could not be saved because a shared database was away, each draft in a file of the workspace folder's {@code
 * pending}: {@code {"case", "rating", "seen": [rating, …]}}. Written beside and moved; deleted when saved.
 */
final class PendingMarks {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private final Path folder;

    PendingMarks(Path workspace) {
        this.folder = workspace.resolve("pending");
    }

    /**
     * @param seen what the draft may hold in the store: as it was last known, or as it was last tried to save
     */
    record Kept(Rating rating, Set<Rating> seen) {}

    Path keep(String caseCode, Rating rating, Set<Rating> seen) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("case", caseCode);
        json.put("rating", MAPPER.readTree(RatingWriter.write(rating)));
        List<JsonNode> forms = new ArrayList<>();
        seen.forEach(one -> forms.add(MAPPER.readTree(RatingWriter.write(one))));
        json.put("seen", forms);
        Path file = file(caseCode, rating);
        try {
            Files.createDirectories(folder);
            Path beside = Files.createTempFile(folder, "marks", ".tmp");
            Files.writeString(beside, MAPPER.writeValueAsString(json));
            Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new InputException(
                    "the database cannot be reached, and the marks cannot be kept either: " + e.getMessage(),
                    file.toString(),
                    "leave the window open until the database is back, and mark once more",
                    e);
        }
        return file;
    }

    /**
     * @param draft names the assessor, part and rubric
     */
    Optional<Kept> find(String caseCode, Rating draft, Rubric rubric) {
        Path file = file(caseCode, draft);
        if (!Files.exists(file)) {
            return Optional.empty();
        }
        try {
            JsonNode json = MAPPER.readTree(Files.readString(file));
            Set<Rating> seen = new LinkedHashSet<>();
            for (JsonNode one : json.path("seen")) {
                seen.add(RatingReader.read(MAPPER.writeValueAsString(one), file.toString(), rubric));
            }
            return Optional.of(new Kept(
                    RatingReader.read(MAPPER.writeValueAsString(json.path("rating")), file.toString(), rubric), seen));
        } catch (IOException | JacksonException e) {
            throw new InputException(
                    "marks kept while the database was away cannot be read: " + e.getMessage(),
                    file.toString(),
                    "move the file away; it is text that can be read",
                    e);
        }
    }

    void forget(String caseCode, Rating draft) {
        try {
            Files.deleteIfExists(file(caseCode, draft));
        } catch (IOException e) {
            // tried again with the next save; what it holds is what is stored
            org.slf4j.LoggerFactory.getLogger(PendingMarks.class).info("not deleted: {}", e.toString());
        }
    }

    /** Makes the marks no longer be taken up; they can still be read. */
    Path putAside(String caseCode, Rating draft) {
        Path file = file(caseCode, draft);
        Path aside = folder.resolve(file.getFileName() + ".conflict");
        try {
            return Files.move(file, aside, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            return file;
        }
    }

    /** Codes may hold letters that a file's name cannot, so the name is a digest of them. */
    private Path file(String caseCode, Rating draft) {
        String key = String.join("\n", caseCode, draft.rubric(), draft.assessor(), String.valueOf(draft.self()));
        return folder.resolve(UUID.nameUUIDFromBytes(key.getBytes(StandardCharsets.UTF_8)) + ".json");
    }
}
