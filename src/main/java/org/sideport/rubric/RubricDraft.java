package org.sideport.rubric;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * A rubric that is being written and may have any fault. Its places are named as {@link RubricCheck} names them, by JSON
 * Pointers such as {@code /items/3/weight}. Immutable: each change makes another draft, in which what hangs together is
 * kept together (an item's anchors follow the levels, translations follow ids).
 */
public final class RubricDraft {

    private final ObjectNode root;
    private final @Nullable Rubric earlier;

    private RubricDraft(ObjectNode root, @Nullable Rubric earlier) {
        this.root = root;
        this.earlier = earlier;
    }

    /** Four levels, one domain and one item with nothing in them. */
    public static RubricDraft fresh(String id, String procedure) {
        ObjectNode root = JsonNodeFactory.instance.objectNode();
        root.put("$schema", RubricWriter.SCHEMA)
                .put("id", id)
                .put("version", "1.0.0")
                .put("title", "")
                .put("procedure", procedure)
                .put("source", "")
                .put("guidance", "");
        ArrayNode levels = root.putArray("levels");
        for (int points = 1; points <= 4; points++) {
            levels.addObject().put("points", points).put("label", "").put("meaning", "");
        }
        root.putArray("domains").addObject().put("id", "domain_1").put("title", "");
        root.putArray("items");
        return new RubricDraft(root, null).addItem("domain_1");
    }

    public static RubricDraft of(Rubric rubric) {
        return new RubricDraft(DraftRules.settled(RubricWriter.tree(rubric)), null);
    }

    /** A rubric of one's own out of another: with another id, as its first version. */
    public static RubricDraft copyOf(Rubric rubric, String id) {
        ObjectNode root = RubricWriter.tree(rubric);
        root.put("id", id).put("version", "1.0.0");
        root.remove("replaces");
        return new RubricDraft(DraftRules.settled(root), null);
    }

    /** The next version, which has to say what became of each item. */
    public static RubricDraft nextOf(Rubric earlier, String version) {
        ObjectNode root = RubricWriter.tree(earlier);
        root.put("version", version);
        ArrayNode replaces = root.withArray("replaces");
        replaces.insertObject(0).put("version", earlier.version()).putObject("items");
        return new RubricDraft(DraftRules.settled(root), earlier);
    }

    /**
     * A file as it is, faults and all.
     *
     * @param earlier the version before it, if it is at hand
     * @throws InputException if it cannot be read or is not JSON
     */
    public static RubricDraft read(Path file, @Nullable Rubric earlier) {
        JsonSource source = JsonSource.parse(JsonSource.text(file), file.toString());
        return new RubricDraft(DraftRules.settled((ObjectNode) source.root().deepCopy()), earlier);
    }

    /** The version before it, whose items are asked after; {@code null} if there is none. */
    public @Nullable Rubric earlier() {
        return earlier;
    }

    // ---- reading

    /** The text or number at a place; empty if there is none. */
    public String text(String path) {
        JsonNode node = root.at(path);
        return node.isString() ? node.stringValue() : node.isNumber() ? DraftRules.plain(node) : "";
    }

    /** True if something stands there, {@code null} too. */
    public boolean has(String path) {
        return !root.at(path).isMissingNode();
    }

    /** Number of members of a list. */
    public int size(String path) {
        JsonNode list = root.at(path);
        return list.isArray() ? list.size() : 0;
    }

    /** What stands under a key in each member of a list. */
    public List<String> texts(String list, String key) {
        List<String> texts = new ArrayList<>();
        for (int i = 0; i < size(list); i++) {
            texts.add(text(list + "/" + i + "/" + key));
        }
        return texts;
    }

    /** The texts in a list of texts. */
    public List<String> texts(String list) {
        List<String> texts = new ArrayList<>();
        for (int i = 0; i < size(list); i++) {
            texts.add(text(list + "/" + i));
        }
        return texts;
    }

    /** The keys of an object, such as the languages of {@code /translations}. */
    public List<String> keys(String path) {
        return List.copyOf(root.at(path).propertyNames());
    }

    /** A part of a path that is an id, which may hold anything while it is typed. */
    public static String part(String id) {
        return "/" + id.replace("~", "~0").replace("/", "~1");
    }

    // ---- changing

    /** Writes a text; a number where the place takes numbers and it is one. */
    public RubricDraft with(String path, String text) {
        return changed(tree -> DraftRules.write(tree, JsonPointer.compile(path), text));
    }

    /** Says what became of an item of the version before: its id now, or {@code null} if it was given up. */
    public RubricDraft withFate(String item, @Nullable String now) {
        return changed(tree -> {
            JsonNode fates = tree.at("/replaces/0/items");
            if (fates instanceof ObjectNode object) {
                if (item.equals(now)) {
                    object.remove(item);
                } else {
                    object.put(item, now);
                }
            }
        });
    }

    /** Allows a reason to leave an item out, or forbids it. */
    public RubricDraft withReason(int item, String reason, boolean allowed) {
        return changed(tree -> {
            if (tree.at("/items/" + item) instanceof ObjectNode node) {
                List<String> reasons = new ArrayList<>(texts("/items/" + item + "/not_applicable"));
                reasons.remove(reason);
                if (allowed) {
                    reasons.add(reason);
                }
                ArrayNode list = node.putArray("not_applicable");
                reasons.forEach(list::add);
            }
        });
    }

    /** Adds an empty level above the others. */
    public RubricDraft addLevel() {
        int most = texts("/levels", "points").stream()
                .mapToInt(DraftRules::wholeOrZero)
                .max()
                .orElse(-1);
        return changed(tree -> tree.withArray("levels")
                .addObject()
                .put("points", most + 1)
                .put("label", "")
                .put("meaning", ""));
    }

    public RubricDraft addDomain() {
        String id = free("domain_", texts("/domains", "id"));
        return changed(
                tree -> tree.withArray("domains").addObject().put("id", id).put("title", ""));
    }

    /** Adds an empty item with levels, at the end of its domain. */
    public RubricDraft addItem(String domain) {
        List<String> taken = new ArrayList<>(texts("/items", "id"));
        if (earlier != null) {
            earlier.items().forEach(i -> taken.add(i.id()));
        }
        String id = free("item_", taken);
        int after = texts("/items", "domain").lastIndexOf(domain);
        int at = after < 0 ? size("/items") : after + 1;
        return changed(tree -> tree.withArray("items")
                .insertObject(at)
                .put("id", id)
                .put("domain", domain)
                .put("title", "")
                .put("kind", "level")
                .put("weight", 1));
    }

    /** Adds a band that begins where the last one does. */
    public RubricDraft addBand(int item) {
        return changed(tree -> {
            if (tree.at("/items/" + item) instanceof ObjectNode node) {
                node.withArray("bands").addObject().put("from", "").put("points", 0);
            }
        });
    }

    /** Takes a member out of a list. */
    public RubricDraft without(String list, int index) {
        return changed(tree -> {
            if (tree.at(list) instanceof ArrayNode array && index < array.size()) {
                array.remove(index);
            }
        });
    }

    /** Moves a member of a list; an item among those of its domain. */
    public RubricDraft moved(String list, int index, int by) {
        int to = index + by;
        if (list.equals("/items")) {
            String domain = text("/items/" + index + "/domain");
            while (to >= 0
                    && to < size(list)
                    && !text("/items/" + to + "/domain").equals(domain)) {
                to += by;
            }
        }
        int target = to;
        return target < 0 || target >= size(list)
                ? this
                : changed(tree -> {
                    if (tree.at(list) instanceof ArrayNode array) {
                        JsonNode one = array.remove(index);
                        array.insert(target, one);
                    }
                });
    }

    /** Takes away a whole part, such as {@code /pass_standard} or a language. */
    public RubricDraft without(String path) {
        return changed(tree -> DraftRules.remove(tree, JsonPointer.compile(path)));
    }

    private RubricDraft changed(Consumer<ObjectNode> change) {
        ObjectNode tree = root.deepCopy();
        change.accept(tree);
        return new RubricDraft(DraftRules.settled(tree), earlier);
    }

    private static String free(String begin, List<String> taken) {
        int number = 1;
        while (taken.contains(begin + number)) {
            number++;
        }
        return begin + number;
    }

    // ---- what becomes of it

    /** Every fault, in the order of the file; also items of the version before of which nothing is said. */
    public List<Finding> check(@Nullable Procedure procedure) {
        return check(source(), procedure);
    }

    private List<Finding> check(JsonSource source, @Nullable Procedure procedure) {
        List<Finding> findings = new ArrayList<>(RubricCheck.check(source, procedure));
        findings.addAll(Succession.faults(this));
        return List.copyOf(findings);
    }

    private JsonSource source() {
        ObjectNode tree = root.deepCopy();
        return JsonSource.parse(
                RubricWriter.json(earlier == null ? tree : Succession.settled(tree, earlier)), "the draft");
    }

    /** What can be shown of it already; what is faulty is left out or empty. */
    public Rubric sketch() {
        return RubricReader.rubric(DraftRules.sketch(root.deepCopy()));
    }

    /**
     * The finished rubric.
     *
     * @throws InputException if it has a fault
     */
    public Rubric finished(@Nullable Procedure procedure) {
        JsonSource source = source();
        source.refuse(check(source, procedure), null);
        return RubricReader.rubric(source.root());
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof RubricDraft draft && draft.root.equals(root);
    }

    @Override
    public int hashCode() {
        return root.hashCode();
    }
}
