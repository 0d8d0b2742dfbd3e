package org.sideport.report.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;
import org.sideport.rubric.RubricReader;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Reads the rubrics of a CASE 1.1 package. Those of this program come back as they were, with what another program changed in
 * title, weights and texts; those of others are rubrics of levels or checks, with ids made of their words.
 */
public final class CfPackageReader {

    private final String name;
    private final String procedure;
    private final JsonNode root;
    private final Map<String, JsonNode> items = new HashMap<>();

    private CfPackageReader(String name, String procedure, JsonNode root) {
        this.name = name;
        this.procedure = procedure;
        this.root = root;
        for (JsonNode item : root.path("CFItems")) {
            items.put(item.path("identifier").asString(""), item);
        }
    }

    /**
     * @param procedure id of the procedure that rubrics of other programs shall assess
     * @throws InputException naming the place of the first thing that does not fit, or the fault of the rubric that results
     */
    public static List<Rubric> read(Path file, String procedure) {
        return read(StandardJson.text(file), String.valueOf(file.getFileName()), procedure);
    }

    /** As {@link #read(Path, String)}, of a text. */
    public static List<Rubric> read(String text, String name, String procedure) {
        JsonNode root = StandardJson.parse(text, name);
        JsonNode rubrics = root.path("CFRubrics");
        if (!rubrics.isArray() || rubrics.isEmpty()) {
            throw new InputException(
                    "there is no rubric in this package",
                    name + ", /CFRubrics",
                    "choose a CASE package with CFRubrics");
        }
        CfPackageReader reader = new CfPackageReader(name, procedure, root);
        List<Rubric> read = new ArrayList<>();
        for (int i = 0; i < rubrics.size(); i++) {
            String place = name + ", /CFRubrics/" + i;
            ObjectNode tree =
                    rubrics.get(i).path("extensions").path(CfPackageWriter.OWN).isObject()
                            ? reader.own(rubrics.get(i), place)
                            : reader.foreign(rubrics.get(i), place);
            read.add(RubricReader.read(StandardJson.MAPPER.writeValueAsString(tree), place));
        }
        return read;
    }

    private static List<JsonNode> criteria(JsonNode rubric, String place) {
        List<JsonNode> criteria = new ArrayList<>();
        rubric.path("CFRubricCriteria").forEach(criteria::add);
        if (criteria.isEmpty()) {
            throw new InputException("the rubric has no criterion", place + "/CFRubricCriteria", "add one");
        }
        for (int i = 0; i < criteria.size(); i++) {
            if (!criteria.get(i).path("CFRubricCriterionLevels").isArray()) {
                throw new InputException(
                        "the criterion has no levels",
                        place + "/CFRubricCriteria/" + i + "/CFRubricCriterionLevels",
                        "add them");
            }
        }
        return criteria;
    }

    private static int score(JsonNode level, String place) {
        JsonNode score = level.path("score");
        double value = score.isNumber() ? score.doubleValue() : Double.NaN;
        if (!(value >= 0 && value <= 1000 && value == Math.rint(value))) {
            throw new InputException(
                    (score.isMissingNode() ? "there is no score" : score + " is no whole number from 0 to 1000"),
                    place + "/score",
                    "this program marks in whole points: change the scale");
        }
        return (int) value;
    }

    // ---- a rubric of this program

    private ObjectNode own(JsonNode rubric, String place) {
        ObjectNode tree =
                (ObjectNode) rubric.at("/extensions/" + CfPackageWriter.OWN).deepCopy();
        tree.put("title", StandardJson.text(rubric, "title", place));
        tree.put("guidance", rubric.path("description").asString(""));
        ArrayNode into = tree.putArray("items");
        List<JsonNode> criteria = criteria(rubric, place);
        for (int i = 0; i < criteria.size(); i++) {
            String at = place + "/CFRubricCriteria/" + i;
            JsonNode kept = criteria.get(i).path("extensions").path(CfPackageWriter.OWN);
            if (!kept.isObject()) {
                throw new InputException(
                        "this criterion was added by another program and does not say how it is marked",
                        at + "/extensions/" + CfPackageWriter.OWN,
                        "add it in the rubric editor instead");
            }
            into.add(ownItem(criteria.get(i), (ObjectNode) kept.deepCopy(), tree, at));
        }
        return tree;
    }

    private static ObjectNode ownItem(JsonNode criterion, ObjectNode item, ObjectNode tree, String place) {
        item.put("title", StandardJson.text(criterion, "description", place));
        item.set("weight", criterion.path("weight"));
        JsonNode levels = criterion.path("CFRubricCriterionLevels");
        String kind = item.path("kind").asString("");
        if (kind.equals("level")) {
            anchors(item, levels, tree, place);
        } else if (!kind.equals("check")) {
            JsonNode bands = item.path("bands");
            if (bands.size() != levels.size()) {
                throw new InputException(
                        "there are " + levels.size() + " levels for " + bands.size() + " bands of numbers",
                        place + "/CFRubricCriterionLevels",
                        "change bands in the rubric editor instead");
            }
            for (int i = 0; i < bands.size(); i++) {
                ObjectNode band = (ObjectNode) bands.get(i);
                band.put("points", score(levels.get(i), place + "/CFRubricCriterionLevels/" + i));
                String text = levels.get(i).path("description").asString("");
                if (text.isEmpty()) {
                    band.remove("text");
                } else {
                    band.put("text", text);
                }
            }
        }
        return item;
    }

    /** An anchor is there if there was one, or if the words are no longer those of the scale. */
    private static void anchors(ObjectNode item, JsonNode levels, ObjectNode tree, String place) {
        Map<Integer, String> before = new TreeMap<>();
        item.path("anchors")
                .forEach(a ->
                        before.put(a.path("points").intValue(), a.path("text").asString("")));
        Map<Integer, String> meanings = new HashMap<>();
        tree.path("levels")
                .forEach(l -> meanings.put(
                        l.path("points").intValue(), l.path("meaning").asString("")));
        Map<Integer, String> now = new TreeMap<>();
        for (int i = 0; i < levels.size(); i++) {
            int points = score(levels.get(i), place + "/CFRubricCriterionLevels/" + i);
            String text = levels.get(i).path("description").asString("");
            if (before.containsKey(points) || !text.equals(meanings.get(points))) {
                now.put(points, text);
            }
        }
        item.remove("anchors");
        if (!now.isEmpty()) {
            ArrayNode anchors = item.putArray("anchors");
            now.forEach(
                    (points, text) -> anchors.addObject().put("points", points).put("text", text));
        }
    }

    // ---- a rubric of another program

    private ObjectNode foreign(JsonNode rubric, String place) {
        JsonNode document = root.path("CFDocument");
        String title = rubric.path("title")
                .asString(document.path("title").asString(""))
                .strip();
        if (title.isEmpty()) {
            throw new InputException("the rubric has no title", place + "/title", "give it one");
        }
        String from = "1EdTech CASE package " + name + ": "
                + document.path("title").asString(title)
                + (document.path("creator").asString("").isEmpty()
                        ? ""
                        : ", by " + document.path("creator").asString(""))
                + ", " + rubric.path("uri").asString(document.path("uri").asString("without a uri"));
        ObjectNode tree = StandardJson.object();
        tree.put("id", slug(title, "rubric", new ArrayList<>()))
                .put("version", "1.0.0")
                .put("title", title)
                .put("procedure", procedure)
                .put("source", from)
                .put("guidance", rubric.path("description").asString(""));
        Map<Integer, String> scale = new TreeMap<>();
        Map<String, String> domains = new LinkedHashMap<>();
        List<String> ids = new ArrayList<>();
        ArrayNode into = StandardJson.MAPPER.createArrayNode();
        List<JsonNode> criteria = criteria(rubric, place);
        for (int i = 0; i < criteria.size(); i++) {
            into.add(foreignItem(criteria.get(i), scale, domains, ids, place + "/CFRubricCriteria/" + i));
        }
        ArrayNode levels = tree.putArray("levels");
        scale.forEach((points, label) ->
                levels.addObject().put("points", points).put("label", label).put("meaning", label));
        ArrayNode all = tree.putArray("domains");
        domains.forEach((category, id) -> all.addObject().put("id", id).put("title", category));
        tree.set("items", into);
        return tree;
    }

    private ObjectNode foreignItem(
            JsonNode criterion,
            Map<Integer, String> scale,
            Map<String, String> domains,
            List<String> ids,
            String place) {
        JsonNode item = items.getOrDefault(
                criterion.path("CFItemURI").path("identifier").asString(""), StandardJson.object());
        String title = criterion
                .path("description")
                .asString(item.path("fullStatement").asString(""))
                .strip();
        if (title.isEmpty()) {
            throw new InputException("the criterion says nothing", place + "/description", "write what is judged");
        }
        String category = criterion.path("category").asString("").strip();
        String domain = category.isEmpty() ? "All" : category;
        if (!domains.containsKey(domain)) {
            domains.put(domain, slug(domain, "domain", new ArrayList<>(domains.values())));
        }
        Map<Integer, JsonNode> levels = new TreeMap<>();
        JsonNode given = criterion.path("CFRubricCriterionLevels");
        for (int i = 0; i < given.size(); i++) {
            String at = place + "/CFRubricCriterionLevels/" + i;
            if (levels.put(score(given.get(i), at), given.get(i)) != null) {
                throw new InputException("two levels have the same score", at + "/score", "give each its own");
            }
        }
        boolean check = levels.keySet().equals(java.util.Set.of(0, 1));
        ObjectNode node = StandardJson.object();
        String id = slug(item.path("humanCodingScheme").asString(title), "item", ids);
        ids.add(id);
        node.put("id", id).put("domain", domains.get(domain)).put("title", title);
        node.put("kind", check ? "check" : "level");
        JsonNode weight = criterion.path("weight");
        if (weight.isNumber() && weight.doubleValue() > 0) {
            node.set("weight", weight);
        }
        String notes = item.path("notes").asString("");
        if (!notes.isBlank()) {
            node.put("guidance", notes);
        }
        if (!check) {
            level(node, levels, scale, place);
        }
        return node;
    }

    private static void level(
            ObjectNode node, Map<Integer, JsonNode> levels, Map<Integer, String> scale, String place) {
        if (levels.size() < 2) {
            throw new InputException(
                    "the criterion has fewer than two levels", place + "/CFRubricCriterionLevels", "add levels");
        }
        if (!scale.isEmpty() && !scale.keySet().equals(levels.keySet())) {
            throw new InputException(
                    "its scores " + levels.keySet() + " are not those of the criteria before, " + scale.keySet(),
                    place + "/CFRubricCriterionLevels",
                    "a rubric has one scale here: split it, or use the same scores throughout");
        }
        ArrayNode anchors = node.putArray("anchors");
        levels.forEach((points, level) -> {
            String quality = level.path("quality").asString("").strip();
            scale.merge(points, quality.isEmpty() ? "Level " + points : quality, (old, now) -> old);
            String text = level.path("description").asString("").strip();
            anchors.addObject()
                    .put("points", points)
                    .put("text", text.isEmpty() ? quality.isEmpty() ? "Level " + points : quality : text);
        });
    }

    /** An id out of words, which none of {@code taken} is. */
    private static String slug(String words, String otherwise, List<String> taken) {
        String plain = java.text.Normalizer.normalize(words, java.text.Normalizer.Form.NFD)
                .toLowerCase(Locale.ROOT)
                .replaceAll("\\p{M}", "")
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^[^a-z]+|-+$", "");
        String cut = plain.isEmpty()
                ? otherwise
                : plain.substring(0, Math.min(50, plain.length())).replaceAll("-+$", "");
        String id = cut;
        for (int i = 2; taken.contains(id); i++) {
            id = cut + "-" + i;
        }
        return id;
    }
}
