package org.sideport.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The ids in the procedure file, read without Sideport's own reader. */
record ProcedureIds(Set<String> steps, Set<String> events) {

    static ProcedureIds read() throws IOException {
        JsonNode root = JsonMapper.shared()
                .readTree(Files.readString(home().resolve("rubrics").resolve("phaco-procedure.json")));
        Set<String> steps = new HashSet<>();
        for (JsonNode phase : root.get("phases")) {
            phase.get("steps").forEach(step -> steps.add(step.get("id").asString()));
        }
        Set<String> events = new HashSet<>();
        root.get("events").forEach(event -> events.add(event.get("id").asString()));
        return new ProcedureIds(steps, events);
    }

    static Path home() {
        return Path.of(System.getProperty("sideport.home", "."));
    }
}
