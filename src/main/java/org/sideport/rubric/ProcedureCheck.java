package org.sideport.rubric;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.sideport.model.InputException;
import tools.jackson.databind.JsonNode;

/** Looks for every fault of a procedure file at once. */
public final class ProcedureCheck {

    private ProcedureCheck() {}

    /**
     * @return every fault in the order of the file; empty if there is none. A text that is not JSON gives one fault.
     * @throws InputException if the file cannot be read
     */
    public static List<Finding> check(Path file) {
        return check(JsonSource.text(file), file.toString());
    }

    /** @param name of the file, for messages */
    public static List<Finding> check(String json, String name) {
        try {
            return check(JsonSource.parse(json, name));
        } catch (NotJsonException e) {
            return List.of(e.finding());
        }
    }

    static List<Finding> check(JsonSource source) {
        List<Finding> findings = new ArrayList<>(SchemaCheck.PROCEDURE.check(source));
        // Spans name a phase or a step by its id alone, and the keyboard starts either: they share one space.
        var ids = new Ids.Repeats(source, findings, "phase or step id");
        var shortNames = new Ids.Repeats(source, findings, "short name");
        var keys = new Ids.Repeats(source, findings, "key");
        Ids.each(source.root(), "", "phases", (phase, path) -> {
            ids.see(phase, path, "id");
            shortNames.see(phase, path, "short_name");
            keys.see(phase, path, "key");
            Ids.each(phase, path, "steps", (step, at) -> {
                ids.see(step, at, "id");
                shortNames.see(step, at, "short_name");
                keys.see(step, at, "key");
            });
        });
        var events = new Ids.Repeats(source, findings, "event id");
        Ids.each(source.root(), "", "events", (event, path) -> events.see(event, path, "id"));
        var descriptors = new Ids.Repeats(source, findings, "descriptor id");
        Ids.each(source.root(), "", "descriptors", (descriptor, path) -> descriptors.see(descriptor, path, "id"));
        Ids.each(source.root(), "", "descriptors", (descriptor, path) -> checkKind(source, descriptor, path, findings));
        findings.sort(Finding.IN_FILE_ORDER);
        return List.copyOf(findings);
    }

    /** What belongs to the kind of a descriptor is there, and the factors of a computed one are numbers. */
    private static void checkKind(JsonSource source, JsonNode descriptor, String path, List<Finding> findings) {
        String kind = Ids.text(descriptor, "kind");
        boolean values = !descriptor.path("values").isEmpty();
        if ((kind.equals("choice") || kind.equals("several")) && !values) {
            findings.add(source.error(path + "/kind", "a " + kind + " has no values", "list its values"));
        }
        if ((kind.equals("number") || kind.equals("text") || kind.equals("computed")) && values) {
            findings.add(
                    source.error(path + "/values", "a descriptor of kind " + kind + " has no values", "take them out"));
        }
        if (kind.equals("computed") != descriptor.has("product_percent")) {
            findings.add(source.error(
                    path,
                    "a computed descriptor and product_percent belong together",
                    "give kind \"computed\" and the ids of its two factors"));
        }
        for (JsonNode factor : descriptor.path("product_percent")) {
            boolean number = false;
            for (JsonNode other : source.root().path("descriptors")) {
                number |= Ids.text(other, "id").equals(factor.asString(""))
                        && Ids.text(other, "kind").equals("number");
            }
            if (!number) {
                findings.add(source.error(
                        path + "/product_percent",
                        "there is no number \"" + factor.asString("") + "\" to work it out of",
                        "name two descriptors of kind number"));
            }
        }
    }
}
