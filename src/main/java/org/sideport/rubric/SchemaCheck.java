package org.sideport.rubric;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A file held against one of the JSON Schemas (2020-12) beside the rubrics, in words for people. Thread-safe. */
final class SchemaCheck {

    static final SchemaCheck RUBRIC = new SchemaCheck("rubric.schema.json");
    static final SchemaCheck PROCEDURE = new SchemaCheck("procedure.schema.json");
    static final SchemaCheck RATING = new SchemaCheck("rating.schema.json");

    private final Schema schema;
    private final String name;

    private SchemaCheck(String name) {
        this.name = name;
        try (InputStream in = SchemaCheck.class.getResourceAsStream("/org/sideport/rubrics/" + name)) {
            if (in == null) {
                throw new IllegalStateException(name + " is not packed with the program");
            }
            JsonNode node = JsonMapper.shared().readTree(in);
            schema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(node);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    List<Finding> check(JsonSource source) {
        List<Finding> findings = new ArrayList<>();
        for (Error error : schema.validate(source.root())) {
            if (error.getEvaluationPath().toString().contains("propertyNames")) {
                names(source, error).stream().filter(f -> !findings.contains(f)).forEach(findings::add);
            } else {
                findings.add(finding(source, error));
            }
        }
        return findings;
    }

    private Finding finding(JsonSource source, Error error) {
        String path = error.getInstanceLocation().toString();
        JsonNode limit = error.getSchemaNode();
        String value = shown(error.getInstanceNode());
        String key = error.getProperty();
        return switch (error.getKeyword()) {
            case "required" -> source.error(path, "\"" + key + "\" is missing", "add \"" + key + "\"");
            case "additionalProperties" ->
                source.error(
                        path + "/" + escaped(key),
                        "there is no key \"" + key + "\" here",
                        "remove it or correct its spelling");
            case "type" -> source.error(path, value + " is of the wrong type", "write " + types(limit));
            case "enum" -> source.error(path, value + " is not a possible value", "write one of " + limit);
            case "pattern" -> pattern(source, path, value, limit);
            case "minItems" -> source.error(path, "the list is too short", "give at least " + limit);
            case "uniqueItems" -> source.error(path, "the list names a value twice", "name each once");
            case "minimum" -> source.error(path, value + " is too small", "write " + limit + " or more");
            case "exclusiveMinimum" -> source.error(path, value + " is too small", "write more than " + limit);
            case "maximum" -> source.error(path, value + " is too large", "write " + limit + " or less");
            case "maxLength" -> source.error(path, value + " is too long", "write " + limit + " characters or fewer");
            default -> source.error(path, error.getMessage(), "see " + name);
        };
    }

    /** The validator tells of the object only: each of its keys that does not fit is named here. */
    private static List<Finding> names(JsonSource source, Error error) {
        JsonNode limit = error.getSchemaNode();
        String pattern =
                limit.isString() ? limit.stringValue() : limit.path("pattern").asString("");
        String remedy = pattern.startsWith("^[0-9]")
                ? "write the points of a level, such as \"1\""
                : "write a language tag, such as \"fr\" or \"pt-BR\"";
        String path = error.getInstanceLocation().toString();
        List<Finding> findings = new ArrayList<>();
        for (String name : source.root().at(path).propertyNames()) {
            if (!name.matches(pattern)) {
                findings.add(source.error(path + "/" + escaped(name), "\"" + name + "\" cannot stand here", remedy));
            }
        }
        return findings;
    }

    private static Finding pattern(JsonSource source, String path, String value, JsonNode limit) {
        if (limit.asString().equals("\\S")) {
            return source.error(path, "the text is empty", "write it");
        }
        String remedy =
                switch (limit.asString().charAt(2)) {
                    case 'a' -> "write lower-case letters, digits, _ and -, starting with a letter";
                    default ->
                        limit.asString().contains("{4}")
                                ? "write an ISO date such as 2026-01-31"
                                : "write three numbers such as 1.0.0";
                };
        return source.error(path, value + " is not written as it must be", remedy);
    }

    private static String types(JsonNode types) {
        List<String> names = new ArrayList<>();
        if (types.isArray()) {
            types.forEach(t -> names.add(type(t.asString())));
        } else {
            names.add(type(types.asString()));
        }
        return String.join(" or ", names);
    }

    private static String type(String name) {
        return switch (name) {
            case "string" -> "a text in quotes";
            case "integer" -> "a whole number";
            case "number" -> "a number";
            case "boolean" -> "true or false";
            case "array" -> "a list in [ ]";
            case "object" -> "an object in { }";
            default -> name;
        };
    }

    private static String shown(@Nullable JsonNode node) {
        String text = node == null ? "" : node.toString();
        return text.length() > 60 ? text.substring(0, 59) + "…" : text;
    }

    private static String escaped(String key) {
        return key.replace("~", "~0").replace("/", "~1");
    }
}
