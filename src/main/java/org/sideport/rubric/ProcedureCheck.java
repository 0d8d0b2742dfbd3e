package org.sideport.rubric;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.sideport.model.InputException;

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
        findings.sort(Finding.IN_FILE_ORDER);
        return List.copyOf(findings);
    }
}
