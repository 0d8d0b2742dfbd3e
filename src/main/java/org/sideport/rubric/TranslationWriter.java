package org.sideport.rubric;

import java.util.Map;
import java.util.TreeMap;
import org.sideport.model.Rubric;
import org.sideport.model.RubricWords;
import tools.jackson.databind.node.ObjectNode;

/** Writes the translations of a rubric, in the order of the rubric. */
final class TranslationWriter {

    private TranslationWriter() {}

    static void write(Rubric rubric, ObjectNode translations) {
        new TreeMap<>(rubric.translations())
                .forEach((language, words) -> words(rubric, words, translations.putObject(language)));
    }

    private static void words(Rubric rubric, RubricWords words, ObjectNode node) {
        put(node, "title", words.title());
        put(node, "guidance", words.guidance());
        if (!words.levels().isEmpty()) {
            ObjectNode levels = node.putObject("levels");
            new TreeMap<>(words.levels()).forEach((points, level) -> {
                ObjectNode one = levels.putObject(points.toString());
                put(one, "label", level.label());
                put(one, "meaning", level.meaning());
            });
        }
        if (!words.domains().isEmpty()) {
            ObjectNode domains = node.putObject("domains");
            rubric.domains().forEach(d -> put(domains, d.id(), words.domains().getOrDefault(d.id(), "")));
        }
        if (!words.items().isEmpty()) {
            ObjectNode items = node.putObject("items");
            for (Rubric.Item item : rubric.items()) {
                RubricWords.ItemWords own = words.items().get(item.id());
                if (own != null) {
                    item(own, items.putObject(item.id()));
                }
            }
        }
    }

    private static void item(RubricWords.ItemWords words, ObjectNode node) {
        put(node, "title", words.title());
        put(node, "guidance", words.guidance());
        put(node, "unit", words.unit());
        if (!words.anchors().isEmpty()) {
            ObjectNode anchors = node.putObject("anchors");
            for (Map.Entry<Integer, String> one : new TreeMap<>(words.anchors()).entrySet()) {
                put(anchors, one.getKey().toString(), one.getValue());
            }
        }
    }

    private static void put(ObjectNode node, String key, String text) {
        if (!text.isEmpty()) {
            node.put(key, text);
        }
    }
}
