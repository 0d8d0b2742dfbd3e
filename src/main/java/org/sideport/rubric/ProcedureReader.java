package org.sideport.rubric;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.DescriptorKind;
import tools.jackson.databind.JsonNode;

/** Reads procedure files, strictly: a file with any fault is refused. {@link ProcedureCheck} tells all faults. */
public final class ProcedureReader {

    private ProcedureReader() {}

    /** @throws InputException if the file cannot be read or has a fault */
    public static Procedure read(Path file) {
        return read(JsonSource.text(file), file.toString());
    }

    /**
     * @param name of the file, for messages
     * @throws InputException if the text has a fault
     */
    public static Procedure read(String json, String name) {
        JsonSource source = JsonSource.parse(json, name);
        source.refuse(ProcedureCheck.check(source), "check the procedure file to see all faults");
        JsonNode root = source.root();
        return new Procedure(
                Fields.text(root, "id"),
                Fields.text(root, "version"),
                Fields.text(root, "title"),
                Fields.text(root, "source"),
                Fields.list(root, "phases", ProcedureReader::phase),
                Fields.list(root, "events", ProcedureReader::event),
                Fields.list(root, "descriptors", ProcedureReader::descriptor));
    }

    private static Procedure.Phase phase(JsonNode phase) {
        return new Procedure.Phase(
                Fields.text(phase, "id"),
                Fields.text(phase, "name"),
                Fields.text(phase, "short_name"),
                Fields.text(phase, "key"),
                Fields.flag(phase, "repeatable"),
                Fields.flag(phase, "optional"),
                Fields.flag(phase, "idle"),
                Fields.text(phase, "definition"),
                Fields.list(phase, "steps", ProcedureReader::step));
    }

    private static Procedure.Step step(JsonNode step) {
        return new Procedure.Step(
                Fields.text(step, "id"),
                Fields.text(step, "name"),
                Fields.text(step, "short_name"),
                Fields.text(step, "key"),
                Fields.text(step, "definition"));
    }

    private static Procedure.EventKind event(JsonNode event) {
        return new Procedure.EventKind(
                Fields.text(event, "id"),
                Fields.text(event, "name"),
                Fields.flag(event, "complication"),
                Fields.text(event, "definition"));
    }

    private static Procedure.Descriptor descriptor(JsonNode descriptor) {
        List<String> values = Fields.list(descriptor, "values", JsonNode::asString);
        String kind = Fields.text(descriptor, "kind");
        return new Procedure.Descriptor(
                Fields.text(descriptor, "id"),
                Fields.text(descriptor, "name"),
                Fields.text(descriptor, "unit"),
                values,
                kind.isEmpty()
                        ? values.isEmpty() ? DescriptorKind.TEXT : DescriptorKind.CHOICE
                        : DescriptorKind.valueOf(kind.toUpperCase(Locale.ROOT)),
                Fields.decimalOrNull(descriptor, "minimum"),
                Fields.decimalOrNull(descriptor, "maximum"),
                Fields.decimalOrNull(descriptor, "step"),
                Fields.text(descriptor, "scale"),
                Fields.text(descriptor, "definition"),
                Fields.text(descriptor, "group"),
                Fields.list(descriptor, "product_percent", JsonNode::asString));
    }
}
