package org.sideport.rubric;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;
import org.sideport.model.RubricWords;
import org.sideport.model.RubricWords.ItemWords;
import org.sideport.model.RubricWords.LevelWords;
import tools.jackson.databind.JsonNode;

/** Reads the translations of a rubric that has passed its check. */
final class TranslationReader {

    private TranslationReader() {}

    static Map<String, RubricWords> read(JsonNode translations) {
        return map(translations, Function.identity(), TranslationReader::words);
    }

    private static RubricWords words(JsonNode node) {
        return new RubricWords(
                Fields.text(node, "title"),
                Fields.text(node, "guidance"),
                map(
                        node.path("levels"),
                        Integer::valueOf,
                        l -> new LevelWords(Fields.text(l, "label"), Fields.text(l, "meaning"))),
                map(node.path("domains"), Function.identity(), JsonNode::stringValue),
                map(node.path("items"), Function.identity(), TranslationReader::item));
    }

    private static ItemWords item(JsonNode node) {
        return new ItemWords(
                Fields.text(node, "title"),
                Fields.text(node, "guidance"),
                Fields.text(node, "unit"),
                map(node.path("anchors"), Integer::valueOf, JsonNode::stringValue));
    }

    private static <K, V> Map<K, V> map(JsonNode node, Function<String, K> key, Function<JsonNode, V> value) {
        Map<K, V> read = new LinkedHashMap<>();
        node.properties().forEach(one -> read.put(key.apply(one.getKey()), value.apply(one.getValue())));
        return read;
    }
}
