package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.Comment;
import org.sideport.model.MediaTime;
import org.sideport.report.bundle.CaseContent;
import org.sideport.report.bundle.Parts;
import org.sideport.store.Workspace;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.PropertyNamingStrategies;
import tools.jackson.databind.json.JsonMapper;

/** What is said about the demo's recordings, out of {@code comments.json}: by case code, as in a case bundle. */
final class DemoComments {

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
            .build();

    private final Workspace workspace;

    DemoComments(Workspace workspace) {
        this.workspace = workspace;
    }

    /** What is said about an item is a moment that its author's mark of it rests on; by {@link LoadRatings#mark}. */
    static Map<String, List<MediaTime>> moments(Path file) throws IOException {
        Map<String, List<MediaTime>> moments = new HashMap<>();
        read(file)
                .forEach((code, parts) -> parts.stream()
                        .filter(p -> p.item() != null)
                        .forEach(p -> moments.computeIfAbsent(
                                        LoadRatings.mark(code, p.author(), String.valueOf(p.item())),
                                        k -> new ArrayList<>())
                                .add(MediaTime.ofMicros(p.fromUs()))));
        return moments;
    }

    private static Map<String, List<CaseContent.CommentPart>> read(Path file) throws IOException {
        return MAPPER.readValue(Files.readString(file), new TypeReference<>() {});
    }

    /** @return how many */
    int add(Path file) throws IOException {
        int count = 0;
        CommentCase job = new CommentCase(workspace);
        Map<String, List<CaseContent.CommentPart>> cases = read(file);
        for (Map.Entry<String, List<CaseContent.CommentPart>> one : cases.entrySet()) {
            for (CaseContent.CommentPart part : one.getValue()) {
                Comment comment = Parts.comment(part, part.author());
                job.open(one.getKey(), part.author()).save(comment);
                for (CaseContent.ReplyPart reply : part.replies()) {
                    job.open(one.getKey(), reply.author()).answer(comment, reply.text());
                }
                count++;
            }
        }
        return count;
    }
}
