package org.sideport.rubric;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Lists of a file seen leniently, so that a check can go on after a fault. */
final class Ids {

    private Ids() {}

    /** How a constant is written in files: lower case. */
    static String of(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
    }

    /** Calls with each member that is an object, and its JSON Pointer. Does nothing if there is no such list. */
    static void each(JsonNode parent, String parentPath, String list, BiConsumer<JsonNode, String> use) {
        JsonNode members = parent.path(list);
        if (!members.isArray()) {
            return;
        }
        for (int i = 0; i < members.size(); i++) {
            if (members.get(i).isObject()) {
                use.accept(members.get(i), parentPath + "/" + list + "/" + i);
            }
        }
    }

    /** The text under a key; empty if there is none. */
    static String text(JsonNode node, String key) {
        JsonNode value = node.path(key);
        return value.isString() ? value.stringValue() : "";
    }

    /** A whole number, {@code 2.0} being one as in JSON Schema; {@code null} if it is not one. */
    static @Nullable Integer whole(JsonNode node) {
        return node.isNumber() && node.canConvertToExactIntegral() && node.canConvertToInt()
                ? (Integer) node.intValue()
                : null;
    }

    /** Watches one kind of value for repeats; empty texts are not compared. */
    static final class Repeats {
        private final Map<String, String> first = new HashMap<>();
        private final JsonSource source;
        private final List<Finding> findings;
        private final String what;

        Repeats(JsonSource source, List<Finding> findings, String what) {
            this.source = source;
            this.findings = findings;
            this.what = what;
        }

        void see(JsonNode node, String path, String key) {
            JsonNode value = node.path(key);
            Integer number = whole(value);
            String text = value.isString() ? value.stringValue() : number == null ? "" : number.toString();
            if (text.isEmpty()) {
                return;
            }
            String before = first.putIfAbsent(text, path);
            if (before != null) {
                findings.add(source.error(
                        path + "/" + key,
                        "the " + what + " \"" + text + "\" stands already at " + before,
                        "give each its own"));
            }
        }

        boolean knows(String text) {
            return first.containsKey(text);
        }
    }
}
