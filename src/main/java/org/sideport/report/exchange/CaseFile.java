package org.sideport.report.exchange;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.sideport.model.Procedure;
import org.sideport.report.bundle.CaseBundle;
import org.sideport.report.bundle.CaseContent;
import org.sideport.store.StoredRating;
import tools.jackson.databind.node.ObjectNode;

/**
 * Everything that is stored of a case as one JSON file, by {@code rubrics/case-file.schema.json}: the content of a case bundle,
 * the rubrics of its marks, and the names that its phases and events have.
 */
public final class CaseFile {

    public static final String SCHEMA = "case-file.schema.json";

    private CaseFile() {}

    public static String write(
            CaseContent content, List<StoredRating> ratings, Procedure procedure, String program, Instant made) {
        ObjectNode root = StandardJson.object();
        root.put("$schema", SCHEMA).put("program", program).put("made_at", made.toString());
        root.set("case", StandardJson.MAPPER.valueToTree(content));
        ObjectNode names = root.putObject("names");
        ObjectNode phases = names.putObject("phases");
        procedure.terms().forEach(t -> phases.put(t.id(), t.name()));
        ObjectNode events = names.putObject("events");
        procedure.events().forEach(e -> events.put(e.id(), e.name()));
        Map<String, String> rubrics = new TreeMap<>();
        ratings.forEach(r ->
                rubrics.put(CaseBundle.rubricKey(r.rating().rubric(), r.rating().rubricVersion()), r.rubricJson()));
        ObjectNode all = root.putObject("rubrics");
        rubrics.forEach((key, json) -> all.set(key, StandardJson.MAPPER.readTree(json)));
        return StandardJson.pretty(root);
    }
}
