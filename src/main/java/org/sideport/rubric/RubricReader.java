package org.sideport.rubric;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.NotApplicable;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import tools.jackson.databind.JsonNode;

/** Reads rubric files, strictly: a file with any fault is refused. {@link RubricCheck} tells all faults. */
public final class RubricReader {

    private RubricReader() {}

    /** @throws InputException if the file cannot be read or has a fault */
    public static Rubric read(Path file) {
        return read(JsonSource.text(file), file.toString());
    }

    /**
     * @param name of the file, for messages
     * @throws InputException if the text has a fault
     */
    public static Rubric read(String json, String name) {
        return read(json, name, null);
    }

    /**
     * @param procedure the procedure that the rubric must fit; {@code null} if that is not to be checked
     * @throws InputException if the text has a fault
     */
    public static Rubric read(String json, String name, @Nullable Procedure procedure) {
        JsonSource source = JsonSource.parse(json, name);
        source.refuse(RubricCheck.check(source, procedure), "check the rubric file to see all faults");
        return rubric(source.root());
    }

    /** Out of a tree that has no fault. */
    static Rubric rubric(JsonNode root) {
        return new Rubric(
                Fields.text(root, "id"),
                Fields.text(root, "version"),
                Fields.text(root, "title"),
                Fields.text(root, "procedure"),
                Fields.text(root, "source"),
                Fields.text(root, "guidance"),
                Fields.list(root, "levels", RubricReader::level),
                Fields.list(root, "domains", d -> new Rubric.Domain(Fields.text(d, "id"), Fields.text(d, "title"))),
                Fields.list(root, "items", RubricReader::item),
                passStandard(root.path("pass_standard")),
                Fields.list(root, "replaces", RubricReader::predecessor),
                TranslationReader.read(root.path("translations")));
    }

    private static Rubric.Predecessor predecessor(JsonNode node) {
        Map<String, @Nullable String> items = new LinkedHashMap<>();
        node.path("items")
                .properties()
                .forEach(one -> items.put(
                        one.getKey(), one.getValue().isString() ? one.getValue().stringValue() : null));
        return new Rubric.Predecessor(Fields.text(node, "version"), items);
    }

    private static Rubric.Level level(JsonNode level) {
        return new Rubric.Level(
                level.path("points").intValue(), Fields.text(level, "label"), Fields.text(level, "meaning"));
    }

    private static Rubric.Item item(JsonNode item) {
        Set<NotApplicable> reasons = EnumSet.noneOf(NotApplicable.class);
        reasons.addAll(Fields.list(item, "not_applicable", r -> NotApplicable.parse(r.asString())));
        return new Rubric.Item(
                Fields.text(item, "id"),
                Fields.text(item, "domain"),
                Fields.text(item, "title"),
                constant(Rubric.Kind.class, Fields.text(item, "kind"), Rubric.Kind.LEVEL),
                Fields.textOrNull(item, "phase"),
                item.path("weight").asDouble(1),
                Fields.wholeOrNull(item, "critical_minimum"),
                reasons,
                Fields.text(item, "guidance"),
                Fields.list(
                                item,
                                "anchors",
                                a -> new Rubric.Anchor(a.path("points").intValue(), Fields.text(a, "text")))
                        .stream()
                        .sorted(Comparator.comparingInt(Rubric.Anchor::points))
                        .toList(),
                Fields.list(
                        item,
                        "bands",
                        b -> new Rubric.Band(
                                b.path("from").doubleValue(), b.path("points").intValue(), Fields.text(b, "text"))),
                Fields.text(item, "unit"),
                constant(Rubric.Quantity.class, Fields.text(item, "quantity"), Rubric.Quantity.ENTERED));
    }

    private static <E extends Enum<E>> E constant(Class<E> type, String id, E otherwise) {
        return id.isEmpty() ? otherwise : Enum.valueOf(type, id.toUpperCase(Locale.ROOT));
    }

    private static Rubric.@Nullable PassStandard passStandard(JsonNode standard) {
        return standard.isObject()
                ? new Rubric.PassStandard(
                        standard.path("share").doubleValue(),
                        Fields.text(standard, "agreed_by"),
                        Fields.text(standard, "agreed_on"))
                : null;
    }
}
