package org.sideport.rubric;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.rubric.Finding.Severity;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A JSON text that still knows the line and column of each of its values. */
final class JsonSource {

    /** Far above any hand-written rubric; keeps a wrong file from filling the memory. */
    private static final long LARGEST_BYTES = 10_000_000;

    private static final JsonMapper MAPPER = JsonMapper.builder(JsonFactory.builder()
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .build())
            .build();

    private final String name;
    private final JsonNode root;
    private final Map<String, TokenStreamLocation> places;

    private JsonSource(String name, JsonNode root, Map<String, TokenStreamLocation> places) {
        this.name = name;
        this.root = root;
        this.places = places;
    }

    /** The text of a UTF-8 file. */
    static String text(Path file) {
        try {
            if (Files.size(file) > LARGEST_BYTES) {
                throw new InputException("the file is too large to be one", file.toString(), "choose another file");
            }
            return Files.readString(file, StandardCharsets.UTF_8);
        } catch (NoSuchFileException e) {
            throw new InputException("there is no such file", file.toString(), "check the path", e);
        } catch (CharacterCodingException e) {
            throw new InputException("the file is not UTF-8 text", file.toString(), "save it as UTF-8", e);
        } catch (IOException e) {
            throw new InputException("the file cannot be read", file.toString(), "check the path and your rights", e);
        }
    }

    /** @throws InputException with line and column if the text is not JSON, or an object names a key twice */
    static JsonSource parse(String json, String name) {
        String text = json.startsWith("\uFEFF") ? json.substring(1) : json;
        try {
            JsonNode root = MAPPER.readTree(text);
            if (!root.isObject()) {
                throw new NotJsonException(
                        "the file does not hold a JSON object", name, null, null, "start it with {", null);
            }
            return new JsonSource(name, root, places(text));
        } catch (JacksonException e) {
            TokenStreamLocation at = e.getLocation();
            throw new NotJsonException(
                    "this is not JSON: " + e.getOriginalMessage(),
                    name,
                    at == null ? null : (Integer) at.getLineNr(),
                    at == null ? null : (Integer) at.getColumnNr(),
                    "mend the text there; often a comma, a quote or a bracket is missing or too many",
                    e);
        }
    }

    private static Map<String, TokenStreamLocation> places(String text) {
        Map<String, TokenStreamLocation> places = new HashMap<>();
        try (JsonParser parser = MAPPER.createParser(text)) {
            JsonToken token;
            while ((token = parser.nextToken()) != null) {
                if (token.isScalarValue() || token.isStructStart()) {
                    places.put(parser.streamReadContext().pathAsPointer().toString(), parser.currentTokenLocation());
                }
            }
        }
        return places;
    }

    String name() {
        return name;
    }

    JsonNode root() {
        return root;
    }

    Finding error(String path, String text, String remedy) {
        return finding(Severity.ERROR, path, text, remedy);
    }

    Finding warning(String path, String text, String remedy) {
        return finding(Severity.WARNING, path, text, remedy);
    }

    private Finding finding(Severity severity, String path, String text, String remedy) {
        TokenStreamLocation at = places.get(path);
        return new Finding(
                severity,
                path,
                at == null ? null : (Integer) at.getLineNr(),
                at == null ? null : (Integer) at.getColumnNr(),
                text,
                remedy);
    }

    /** @throws InputException telling the first error and how many more there are, if there is any */
    void refuse(List<Finding> findings, @Nullable String more) {
        List<Finding> errors = findings.stream().filter(Finding::isError).toList();
        if (errors.isEmpty()) {
            return;
        }
        Finding first = errors.get(0);
        String place = first.place();
        int others = errors.size() - 1;
        throw new InputException(
                first.text()
                        + (others == 0 ? "" : " (and " + others + (others == 1 ? " more fault)" : " more faults)")),
                place.isEmpty() ? name : name + ", " + place,
                others == 0 || more == null ? first.remedy() : first.remedy() + "; " + more);
    }
}
