package org.sideport.rubric;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Rubric;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** How a version follows the ones before it. */
final class Succession {

    private Succession() {}

    /** An item of the version before that is no longer there and of which nothing is said; a version that is not higher. */
    static List<Finding> faults(RubricDraft draft) {
        Rubric earlier = draft.earlier();
        if (earlier == null) {
            return List.of();
        }
        List<Finding> findings = new ArrayList<>();
        String version = draft.text("/version");
        if (version.matches("[0-9]+\\.[0-9]+\\.[0-9]+") && Versions.compare(version, earlier.version()) <= 0) {
            findings.add(error(
                    "/version",
                    "the version does not come after " + earlier.version(),
                    "write a higher one, such as " + Versions.next(earlier.version())));
        }
        List<String> now = draft.texts("/items", "id");
        for (Rubric.Item item : earlier.items()) {
            String path = "/replaces/0/items" + RubricDraft.part(item.id());
            if (!now.contains(item.id()) && !draft.has(path)) {
                findings.add(error(
                        path,
                        "nothing says what became of \"" + item.title() + "\"",
                        "say which item it is now, or that it was given up"));
            }
        }
        return findings;
    }

    private static Finding error(String path, String text, String remedy) {
        return new Finding(Finding.Severity.ERROR, path, null, null, text, remedy);
    }

    /**
     * Lets what is said of older versions follow what is said of the newest one, so that marks can be followed through.
     *
     * @param earlier the version before, which knows those before it
     */
    static ObjectNode settled(ObjectNode tree, Rubric earlier) {
        if (!(tree.path("replaces") instanceof ArrayNode replaces) || replaces.isEmpty()) {
            return tree;
        }
        JsonNode newest = replaces.get(0).path("items");
        Set<String> items = new HashSet<>();
        tree.path("items").forEach(item -> items.add(Ids.text(item, "id")));
        while (replaces.size() > 1) {
            replaces.remove(1);
        }
        for (Rubric.Predecessor older : earlier.replaces()) {
            ObjectNode one = replaces.addObject().put("version", older.version());
            ObjectNode fates = one.putObject("items");
            older.items().forEach((then, later) -> fates.put(then, later == null ? null : fate(newest, items, later)));
            newest.properties().forEach(fate -> {
                if (!fates.has(fate.getKey())) {
                    fates.set(fate.getKey(), fate.getValue());
                }
            });
        }
        return tree;
    }

    private static @Nullable String fate(JsonNode newest, Set<String> items, String item) {
        if (newest.has(item)) {
            return newest.path(item).isString() ? newest.path(item).stringValue() : null;
        }
        return items.contains(item) ? item : null;
    }
}
