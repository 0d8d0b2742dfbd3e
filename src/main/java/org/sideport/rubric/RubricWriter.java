package org.sideport.rubric;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;
import org.sideport.model.InputException;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rubric;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.core.util.Separators;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Writes rubric files: always the same text for the same rubric, with what is usual left out. */
public final class RubricWriter {

    /** Name of the schema file that a written rubric points at, so that text editors find it beside the rubric. */
    public static final String SCHEMA = "rubric.schema.json";

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private RubricWriter() {}

    /** The text of the file, ending with a line feed. {@link RubricReader} makes the same rubric out of it. */
    public static String json(Rubric rubric) {
        return json(tree(rubric));
    }

    /**
     * The text of a file.
     *
     * @throws InputException if it cannot be read
     */
    public static String text(Path file) {
        return JsonSource.text(file);
    }

    static String json(JsonNode tree) {
        DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
        DefaultPrettyPrinter printer = new DefaultPrettyPrinter(
                        Separators.createDefaultInstance().withObjectNameValueSpacing(Separators.Spacing.AFTER))
                .withObjectIndenter(indenter)
                .withArrayIndenter(indenter);
        return MAPPER.writer().with(printer).writeValueAsString(tree) + "\n";
    }

    /**
     * Writes a text whole or not at all: beside the file first, then in its place.
     *
     * @throws InputException if it cannot be written; what stood there before stays
     */
    public static void write(Path file, String text) {
        Path target = file.toAbsolutePath();
        Path part = target.resolveSibling("." + target.getFileName() + "." + UUID.randomUUID() + ".part");
        try {
            Files.createDirectories(target.resolveSibling("."));
            try {
                try (FileChannel out =
                        FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
                    ByteBuffer bytes = StandardCharsets.UTF_8.encode(text);
                    while (bytes.hasRemaining()) {
                        out.write(bytes);
                    }
                    out.force(true);
                }
                move(part, target);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the rubric cannot be written: "
                            + (e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage()),
                    file.toString(),
                    "check your rights in the folder and that the disk has room",
                    e);
        }
    }

    private static void move(Path part, Path target) throws IOException {
        try {
            Files.move(part, target, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    static ObjectNode tree(Rubric rubric) {
        ObjectNode root = JsonNodeFactory.instance.objectNode();
        root.put("$schema", SCHEMA)
                .put("id", rubric.id())
                .put("version", rubric.version())
                .put("title", rubric.title())
                .put("procedure", rubric.procedure())
                .put("source", rubric.source())
                .put("guidance", rubric.guidance());
        ArrayNode levels = root.putArray("levels");
        rubric.levels()
                .forEach(l -> levels.addObject()
                        .put("points", l.points())
                        .put("label", l.label())
                        .put("meaning", l.meaning()));
        ArrayNode domains = root.putArray("domains");
        rubric.domains().forEach(d -> domains.addObject().put("id", d.id()).put("title", d.title()));
        ArrayNode items = root.putArray("items");
        rubric.items().forEach(i -> item(items.addObject(), i));
        Rubric.PassStandard standard = rubric.passStandard();
        if (standard != null) {
            number(root.putObject("pass_standard"), "share", standard.share())
                    .put("agreed_by", standard.agreedBy())
                    .put("agreed_on", standard.agreedOn());
        }
        if (!rubric.replaces().isEmpty()) {
            ArrayNode replaces = root.putArray("replaces");
            rubric.replaces().forEach(one -> {
                ObjectNode node = replaces.addObject().put("version", one.version());
                ObjectNode mapped = node.putObject("items");
                one.items().forEach(mapped::put);
            });
        }
        if (!rubric.translations().isEmpty()) {
            TranslationWriter.write(rubric, root.putObject("translations"));
        }
        return root;
    }

    private static void item(ObjectNode node, Rubric.Item item) {
        node.put("id", item.id())
                .put("domain", item.domain())
                .put("title", item.title())
                .put("kind", Ids.of(item.kind()));
        if (item.phase() != null) {
            node.put("phase", item.phase());
        }
        number(node, "weight", item.weight());
        if (item.criticalMinimum() != null) {
            node.put("critical_minimum", item.criticalMinimum());
        }
        if (!item.notApplicable().isEmpty()) {
            ArrayNode reasons = node.putArray("not_applicable");
            item.notApplicable().stream().sorted().map(NotApplicable::id).forEach(reasons::add);
        }
        text(node, "guidance", item.guidance());
        if (!item.anchors().isEmpty()) {
            ArrayNode anchors = node.putArray("anchors");
            item.anchors()
                    .forEach(a -> anchors.addObject().put("points", a.points()).put("text", a.text()));
        }
        if (!item.bands().isEmpty()) {
            ArrayNode bands = node.putArray("bands");
            item.bands()
                    .forEach(b -> text(
                            number(bands.addObject(), "from", b.from()).put("points", b.points()), "text", b.text()));
        }
        text(node, "unit", item.unit());
        if (item.quantity() != Rubric.Quantity.ENTERED) {
            node.put("quantity", Ids.of(item.quantity()));
        }
    }

    private static void text(ObjectNode node, String key, String text) {
        if (!text.isEmpty()) {
            node.put(key, text);
        }
    }

    /** Whole numbers without a point, as people write them. */
    private static ObjectNode number(ObjectNode node, String key, double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? node.put(key, Math.round(value))
                : node.put(key, value);
    }
}
