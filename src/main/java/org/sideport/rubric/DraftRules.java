package org.sideport.rubric;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.sideport.model.NotApplicable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What is kept together in the tree of a rubric that is being written. The trees given are changed. */
final class DraftRules {

    private static final Set<String> NUMBERS = Set.of("points", "weight", "critical_minimum", "from", "share");
    /** Places where nothing is written as {@code null}. */
    private static final Set<String> NONE_IS_NULL = Set.of("critical_minimum", "phase");

    private DraftRules() {}

    static int wholeOrZero(String text) {
        return text.matches("\\d{1,9}") ? Integer.parseInt(text) : 0;
    }

    /** A number as people write it. */
    static String plain(JsonNode number) {
        BigDecimal value = new BigDecimal(number.asString());
        return value.signum() == 0 ? "0" : value.stripTrailingZeros().toPlainString();
    }

    // ---- writing

    static void write(ObjectNode tree, JsonPointer path, String text) {
        String before = tree.at(path).isString() ? tree.at(path).stringValue() : plainOrEmpty(tree.at(path));
        String key = path.last().getMatchingProperty();
        String whole = path.toString();
        boolean words = whole.startsWith("/translations/");
        if (words && text.isBlank()) {
            remove(tree, path);
            return;
        }
        if (container(tree, path.head()) instanceof ObjectNode parent) {
            parent.set(key, value(words ? "" : key, text));
        } else if (tree.at(path.head()) instanceof ArrayNode list && path.last().getMatchingIndex() < list.size()) {
            list.set(path.last().getMatchingIndex(), value("", text));
        }
        if (whole.matches("/items/\\d+/id")) {
            DraftNames.item(tree, before, text);
        } else if (whole.matches("/domains/\\d+/id")) {
            DraftNames.domain(tree, before, text);
        } else if (whole.matches("/levels/\\d+/points")) {
            DraftNames.level(tree, before, text);
        }
    }

    private static String plainOrEmpty(JsonNode node) {
        return node.isNumber() ? plain(node) : "";
    }

    /** The object at a path, made where it lacks; what is not to be found in a list stays missing. */
    private static JsonNode container(ObjectNode tree, JsonPointer path) {
        JsonNode now = tree;
        for (JsonPointer rest = path; !rest.matches(); rest = rest.tail()) {
            String key = rest.getMatchingProperty();
            if (now instanceof ObjectNode object) {
                JsonNode next = object.path(key);
                now = next.isObject() || next.isArray() ? next : object.putObject(key);
            } else {
                now = now.path(rest.getMatchingIndex());
            }
        }
        return now;
    }

    private static JsonNode value(String key, String text) {
        JsonNodeFactory make = JsonNodeFactory.instance;
        if (NONE_IS_NULL.contains(key) && text.isBlank()) {
            return make.nullNode();
        }
        if (!NUMBERS.contains(key)) {
            return make.stringNode(text);
        }
        try {
            BigDecimal number = new BigDecimal(text.strip().replace(',', '.'));
            return number.scale() <= 0 && number.precision() - number.scale() < 10
                    ? make.numberNode(number.intValueExact())
                    : make.numberNode(number.doubleValue());
        } catch (NumberFormatException e) {
            return make.stringNode(text);
        }
    }

    /** Takes a value out, and the objects around it that it leaves empty. */
    static void remove(ObjectNode tree, JsonPointer path) {
        if (path.matches() || !(tree.at(path.head()) instanceof ObjectNode parent)) {
            return;
        }
        parent.remove(path.last().getMatchingProperty());
        if (parent.isEmpty() && !path.head().matches()) {
            remove(tree, path.head());
        }
    }

    // ---- settling

    /** Puts every item in order: what its kind needs is there, what it does not is gone. */
    static ObjectNode settled(ObjectNode tree) {
        List<JsonNode> points = new ArrayList<>();
        tree.path("levels").forEach(level -> points.add(level.path("points")));
        for (JsonNode one : tree.path("items")) {
            if (one instanceof ObjectNode item) {
                settle(item, points);
            }
        }
        return tree;
    }

    private static void settle(ObjectNode item, List<JsonNode> points) {
        item.putIfAbsent("kind", JsonNodeFactory.instance.stringNode("level"));
        item.putIfAbsent("weight", JsonNodeFactory.instance.numberNode(1));
        String kind = Ids.text(item, "kind");
        if (kind.equals("level")) {
            anchors(item, points);
        } else {
            item.remove("anchors");
        }
        if (kind.equals("count") || kind.equals("measured")) {
            if (item.path("bands").isEmpty()) {
                ArrayNode bands = item.putArray("bands");
                bands.addObject().put("from", 0).put("points", 1);
                bands.addObject().put("from", 1).put("points", 0);
            }
        } else {
            item.remove(List.of("bands", "unit"));
        }
        if (!kind.equals("measured")) {
            item.remove("quantity");
        } else {
            item.remove("critical_minimum");
            item.putIfAbsent("quantity", JsonNodeFactory.instance.stringNode("entered"));
        }
    }

    /** One anchor for each level, in the order of the levels. */
    private static void anchors(ObjectNode item, List<JsonNode> points) {
        Map<JsonNode, String> texts = new LinkedHashMap<>();
        item.path("anchors").forEach(a -> texts.putIfAbsent(a.path("points"), Ids.text(a, "text")));
        ArrayNode anchors = item.putArray("anchors");
        for (JsonNode one : points) {
            anchors.addObject().put("text", texts.getOrDefault(one, "")).set("points", one.deepCopy());
        }
    }

    // ---- sketching

    /** Leaves of a draft what {@link RubricReader} can take. */
    static ObjectNode sketch(ObjectNode tree) {
        keep(tree, "levels", level -> isWhole(level.path("points")));
        keep(tree, "domains", JsonNode::isObject);
        keep(tree, "items", JsonNode::isObject);
        keep(tree, "replaces", JsonNode::isObject);
        for (JsonNode one : tree.path("items")) {
            if (one instanceof ObjectNode item) {
                sketchItem(item);
            }
        }
        if (!tree.at("/pass_standard/share").isNumber()) {
            tree.remove("pass_standard");
        }
        try {
            TranslationReader.read(tree.path("translations"));
        } catch (NumberFormatException | JacksonException e) {
            tree.remove("translations");
        }
        return tree;
    }

    private static void sketchItem(ObjectNode item) {
        keep(item, "anchors", anchor -> isWhole(anchor.path("points")));
        keep(
                item,
                "bands",
                band -> isWhole(band.path("points")) && band.path("from").isNumber());
        if (!item.path("weight").isNumber()) {
            item.put("weight", 1);
        }
        if (!isWhole(item.path("critical_minimum"))) {
            item.remove("critical_minimum");
            item.putIfAbsent("quantity", JsonNodeFactory.instance.stringNode("entered"));
        }
        if (!Set.of("level", "check", "count", "measured").contains(Ids.text(item, "kind"))) {
            item.put("kind", "level");
        }
        if (!Set.of("entered", "phase_time").contains(Ids.text(item, "quantity"))) {
            item.remove("quantity");
        }
        Set<String> reasons = Set.of(
                NotApplicable.DONE_BY_TRAINER.id(), NotApplicable.NOT_VISIBLE.id(), NotApplicable.NOT_PERFORMED.id());
        keep(item, "not_applicable", reason -> reason.isString() && reasons.contains(reason.stringValue()));
    }

    private static boolean isWhole(JsonNode node) {
        return Ids.whole(node) != null;
    }

    private static void keep(ObjectNode parent, String list, java.util.function.Predicate<JsonNode> wanted) {
        if (parent.path(list) instanceof ArrayNode array) {
            array.removeIf(wanted.negate());
        } else {
            parent.remove(list);
        }
    }
}
