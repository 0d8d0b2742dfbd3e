package org.sideport.cli.stats;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.stats.casemix.OddsTable;
import org.sideport.stats.casemix.OddsTable.OddsFactor;
import org.sideport.stats.casemix.OddsTable.OddsLevel;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A table of odds ratios as JSON: the one that comes with the program, or a person's own of the same shape. */
final class OddsTableFile {

    /** The name of the table that comes with the program. */
    static final String CATARACT = "cataract";

    private OddsTableFile() {}

    /**
     * @param name {@link #CATARACT} or a path
     * @throws InputException if there is no such file or it is no table of odds ratios
     */
    static OddsTable read(String name) {
        if (name.equals(CATARACT)) {
            try (InputStream in =
                    Objects.requireNonNull(OddsTableFile.class.getResourceAsStream("cataract-odds.json"))) {
                return parse(new String(in.readAllBytes(), StandardCharsets.UTF_8), name);
            } catch (IOException e) {
                throw new IllegalStateException(e);
            }
        }
        try {
            return parse(Files.readString(Path.of(name)), name);
        } catch (NoSuchFileException e) {
            throw new InputException(
                    "no such file", name, "give a path, or " + CATARACT + " for the table that comes along", e);
        } catch (IOException e) {
            throw new InputException("cannot be read: " + e.getMessage(), name, "save it as JSON (UTF-8)", e);
        }
    }

    private static OddsTable parse(String text, String file) {
        try {
            JsonNode root = JsonMapper.builder().build().readTree(text);
            List<OddsFactor> factors = new ArrayList<>();
            for (JsonNode factor : list(root, "factors", file)) {
                factors.add(factor(factor, file));
            }
            return new OddsTable(
                    text(root, "title", file),
                    text(root, "source", file),
                    root.path("note").asString(""),
                    number(root, "baseline", file),
                    text(root, "baseline_source", file),
                    factors);
        } catch (JacksonException e) {
            throw new InputException(
                    "this is no JSON: " + e.getOriginalMessage(), file, "compare it with the table shown by --odds", e);
        } catch (IllegalArgumentException e) {
            throw new InputException(String.valueOf(e.getMessage()), file, "correct the table", e);
        }
    }

    private static OddsFactor factor(JsonNode factor, String file) {
        String name = text(factor, "name", file).toLowerCase(Locale.ROOT);
        String place = file + ", factor " + name;
        List<OddsLevel> levels = new ArrayList<>();
        for (JsonNode level : list(factor, "levels", place)) {
            List<String> also = new ArrayList<>();
            level.path("also").forEach(word -> also.add(word.asString("")));
            levels.add(new OddsLevel(
                    text(level, "name", place),
                    number(level, "odds_ratio", place),
                    also,
                    orNull(level, "from", place),
                    orNull(level, "below", place)));
        }
        return new OddsFactor(
                name,
                factor.path("left_out_because").isString()
                        ? factor.path("left_out_because").asString()
                        : null,
                levels);
    }

    private static JsonNode list(JsonNode node, String key, String place) {
        JsonNode found = node.path(key);
        if (!found.isArray()) {
            throw new InputException("there is no list \"" + key + "\"", place, "compare it with the table of --odds");
        }
        return found;
    }

    private static String text(JsonNode node, String key, String place) {
        JsonNode found = node.path(key);
        if (!found.isString() || found.asString().isBlank()) {
            throw new InputException("there is no text \"" + key + "\"", place, "fill it in");
        }
        return found.asString();
    }

    private static double number(JsonNode node, String key, String place) {
        JsonNode found = node.path(key);
        if (!found.isNumber()) {
            throw new InputException("there is no number \"" + key + "\"", place, "fill it in, for instance 1.42");
        }
        return found.asDouble();
    }

    private static @Nullable Double orNull(JsonNode node, String key, String place) {
        JsonNode found = node.path(key);
        return found.isMissingNode() || found.isNull() ? null : (Double) number(node, key, place);
    }

    /** The same shape again. */
    static Map<String, @Nullable Object> json(OddsTable table) {
        List<Object> factors = new ArrayList<>();
        for (OddsFactor factor : table.factors()) {
            List<Object> levels = new ArrayList<>();
            factor.levels()
                    .forEach(level -> levels.add(Json.object(
                            "name",
                            level.name(),
                            "odds_ratio",
                            level.oddsRatio(),
                            "also",
                            level.also(),
                            "from",
                            level.from(),
                            "below",
                            level.below())));
            factors.add(
                    Json.object("name", factor.name(), "left_out_because", factor.leftOutBecause(), "levels", levels));
        }
        Map<String, @Nullable Object> json = head(table);
        json.put("factors", factors);
        return json;
    }

    /** Where the figures come from. */
    static Map<String, @Nullable Object> head(OddsTable table) {
        return Json.object(
                "title",
                table.title(),
                "source",
                table.source(),
                "note",
                table.note(),
                "baseline",
                table.baseline(),
                "baseline_source",
                table.baselineSource());
    }
}
