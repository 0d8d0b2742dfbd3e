package org.sideport.rubric;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Reads the fields of an object that has passed its schema. */
final class Fields {

    private Fields() {}

    static String text(JsonNode node, String key) {
        return node.path(key).asString("");
    }

    static boolean flag(JsonNode node, String key) {
        return node.path(key).asBoolean(false);
    }

    static @Nullable String textOrNull(JsonNode node, String key) {
        return node.path(key).isString() ? node.path(key).stringValue() : null;
    }

    static @Nullable Integer wholeOrNull(JsonNode node, String key) {
        return node.path(key).isNumber() ? (Integer) node.path(key).intValue() : null;
    }

    static @Nullable BigDecimal decimalOrNull(JsonNode node, String key) {
        return node.path(key).isNumber() ? new BigDecimal(node.path(key).asString()) : null;
    }

    static <T> List<T> list(JsonNode node, String key, Function<JsonNode, T> read) {
        List<T> list = new ArrayList<>();
        for (JsonNode member : node.path(key)) {
            list.add(read.apply(member));
        }
        return list;
    }
}
