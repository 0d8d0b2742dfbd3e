package org.sideport.report.exchange;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import org.sideport.model.InputException;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.PropertyNamingStrategies;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** JSON of other programs: bounded in size and depth, faults named by line or by place. */
final class StandardJson {

    private static final long LARGEST = 32L << 20;
    private static final int DEEPEST = 64;

    static final JsonMapper MAPPER = JsonMapper.builder(JsonFactory.builder()
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .streamReadConstraints(StreamReadConstraints.builder()
                            .maxNestingDepth(DEEPEST)
                            .maxDocumentLength(LARGEST)
                            .maxNumberLength(40)
                            .maxNameLength(1000)
                            .build())
                    .build())
            .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private StandardJson() {}

    static ObjectNode object() {
        return MAPPER.createObjectNode();
    }

    /** Indented, ending with a line feed. */
    static String pretty(JsonNode node) {
        return MAPPER.writer().with(SerializationFeature.INDENT_OUTPUT).writeValueAsString(node) + "\n";
    }

    /**
     * The text of a file in UTF-8, without a byte order mark.
     *
     * @throws InputException if it is not there, too large, or no UTF-8
     */
    static String text(Path file) {
        try {
            if (Files.isDirectory(file)) {
                throw new InputException("this is a folder", file.toString(), "name a file");
            }
            if (Files.size(file) > LARGEST) {
                throw new InputException("the file is too large", file.toString(), "choose another file");
            }
            String text = Files.readString(file, StandardCharsets.UTF_8);
            return text.startsWith("\uFEFF") ? text.substring(1) : text;
        } catch (NoSuchFileException e) {
            throw new InputException("there is no such file", file.toString(), "check the path", e);
        } catch (CharacterCodingException e) {
            throw new InputException("the file is not UTF-8 text", file.toString(), "save it as UTF-8", e);
        } catch (IOException e) {
            throw new InputException("the file cannot be read", file.toString(), "check the path and your rights", e);
        }
    }

    /** @throws InputException with line and column if the text is not JSON */
    static JsonNode parse(String text, String name) {
        try {
            return MAPPER.readTree(text);
        } catch (JacksonException e) {
            TokenStreamLocation at = e.getLocation();
            throw new InputException(
                    "this is not JSON: " + e.getOriginalMessage(),
                    name + (at == null ? "" : ", line " + at.getLineNr() + ", column " + at.getColumnNr()),
                    "mend the text there, or write the file again with the other program",
                    e);
        }
    }

    /** @throws InputException at the place if it is not there or no text */
    static String text(JsonNode of, String field, String place) {
        JsonNode value = of.path(field);
        if (!value.isString()) {
            throw new InputException(
                    "\"" + field + "\" is " + (value.isMissingNode() ? "missing" : "no text"),
                    place,
                    "add it as a text in quotes");
        }
        return value.stringValue();
    }
}
