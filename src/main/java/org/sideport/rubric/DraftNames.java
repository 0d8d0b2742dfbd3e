package org.sideport.rubric;

import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Lets everything that names an item, a domain or a level follow when its name changes. */
final class DraftNames {

    private DraftNames() {}

    static void item(ObjectNode tree, String before, String now) {
        if (isGone(tree, "items", "id", before)) {
            tree.path("translations").forEach(words -> rename(words.path("items"), before, now));
            boolean[] newest = {true};
            tree.path("replaces").forEach(one -> {
                if (one.path("items") instanceof ObjectNode fates) {
                    boolean[] named = {false};
                    fates.properties().forEach(fate -> {
                        if (fate.getValue().isString()
                                && fate.getValue().stringValue().equals(before)) {
                            fate.setValue(tree.stringNode(now));
                            named[0] = true;
                        }
                    });
                    if (newest[0] && !named[0] && !fates.has(before) && !before.isEmpty()) {
                        fates.put(before, now);
                    }
                    if (Ids.text(fates, now).equals(now)) {
                        fates.remove(now);
                    }
                }
                newest[0] = false;
            });
        }
    }

    static void domain(ObjectNode tree, String before, String now) {
        if (isGone(tree, "domains", "id", before)) {
            tree.path("translations").forEach(words -> rename(words.path("domains"), before, now));
            tree.path("items").forEach(item -> {
                if (item instanceof ObjectNode node && Ids.text(node, "domain").equals(before)) {
                    node.put("domain", now);
                }
            });
        }
    }

    /** Anchors, minimums and translations keep to their level when its points change. */
    static void level(ObjectNode tree, String before, String now) {
        Integer from = before.matches("\\d{1,9}") ? (Integer) Integer.parseInt(before) : null;
        if (from == null || !now.matches("\\d{1,9}") || !isGone(tree, "levels", "points", before)) {
            return;
        }
        int to = Integer.parseInt(now);
        tree.path("items").forEach(item -> {
            String kind = Ids.text(item, "kind");
            if (item instanceof ObjectNode node && (kind.isEmpty() || kind.equals("level"))) {
                node.path("anchors").forEach(anchor -> {
                    if (anchor instanceof ObjectNode one && from.equals(Ids.whole(one.path("points")))) {
                        one.put("points", to);
                    }
                });
                if (from.equals(Ids.whole(node.path("critical_minimum")))) {
                    node.put("critical_minimum", to);
                }
            }
        });
        tree.path("translations").forEach(words -> {
            rename(words.path("levels"), before, now);
            words.path("items").forEach(item -> rename(item.path("anchors"), before, now));
        });
    }

    private static boolean isGone(ObjectNode tree, String list, String key, String value) {
        for (JsonNode one : tree.path(list)) {
            if (one.path(key).asString("").equals(value)) {
                return false;
            }
        }
        return !value.isEmpty();
    }

    private static void rename(JsonNode object, String before, String now) {
        if (object instanceof ObjectNode node && node.has(before) && !node.has(now) && !now.isEmpty()) {
            node.set(now, node.path(before));
            node.remove(before);
        }
    }
}
