package org.sideport.report.bundle;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.util.List;
import org.sideport.model.InputException;
import org.sideport.rubric.ShippedRubrics;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.PropertyNamingStrategies;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** JSON of bundles: bounded in size and depth, held against its schema before anything else looks at it. */
final class BundleJson {

    /** A case with thousands of tags, comments and drawings has about a tenth of this. */
    static final int LARGEST = 16 << 20;

    private static final int DEEPEST = 32;
    private static final int SHOWN = 3;

    private static final JsonMapper MAPPER = JsonMapper.builder(JsonFactory.builder()
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .streamReadConstraints(StreamReadConstraints.builder()
                            .maxNestingDepth(DEEPEST)
                            .maxDocumentLength(LARGEST)
                            .maxStringLength(1 << 20)
                            .maxNumberLength(40)
                            .maxNameLength(1000)
                            .build())
                    .build())
            .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
            .enable(SerializationFeature.INDENT_OUTPUT)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private final Schema schema;
    private final String entry;

    private BundleJson(String schemaName, String entry) {
        this.entry = entry;
        schema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(MAPPER.readTree(ShippedRubrics.text(schemaName)));
    }

    static BundleJson ofManifest() {
        return new BundleJson("case-bundle.schema.json", Manifest.NAME);
    }

    static BundleJson ofContent() {
        return new BundleJson("case-content.schema.json", CaseBundle.CONTENT);
    }

    static byte[] write(Object value) {
        return MAPPER.writeValueAsBytes(value);
    }

    static JsonNode tree(String json) {
        return MAPPER.readTree(json);
    }

    /**
     * @throws InputException if the text is not JSON, too deep or too large; nothing is known of its content yet
     */
    JsonNode parse(byte[] json) {
        try {
            return MAPPER.readTree(json);
        } catch (JacksonException e) {
            throw new InputException(
                    "this is no JSON that can be read: " + e.getOriginalMessage(),
                    entry,
                    "the bundle is damaged, or not made by this program: ask for it again",
                    e);
        }
    }

    /**
     * @throws InputException if it does not fit the schema
     */
    <T> T read(JsonNode root, Class<T> type) {
        List<Error> errors = schema.validate(root);
        if (!errors.isEmpty()) {
            StringBuilder said = new StringBuilder();
            for (Error error : errors.subList(0, Math.min(SHOWN, errors.size()))) {
                String at = error.getInstanceLocation().toString();
                said.append(said.length() == 0 ? "" : "; ").append(at.isEmpty() ? "" : at + ": ");
                said.append(shortened(error.getMessage()));
            }
            int more = errors.size() - SHOWN;
            throw new InputException(
                    "does not have the form of a bundle: " + said + (more > 0 ? " (and " + more + " more)" : ""),
                    entry,
                    "the bundle is damaged, or not made by this program: ask for it again");
        }
        try {
            return MAPPER.treeToValue(root, type);
        } catch (JacksonException e) {
            throw new InputException(
                    "does not have the form of a bundle: " + shortened(e.getOriginalMessage()),
                    entry,
                    "the bundle is damaged, or not made by this program: ask for it again",
                    e);
        }
    }

    private static String shortened(String text) {
        return text.length() > 160 ? text.substring(0, 159) + "…" : text;
    }
}
