package org.sideport.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sideport.cli.console.Console;
import tools.jackson.databind.json.JsonMapper;

/** How fast the screens are, each part in a process of its own, so that none warms or burdens another. */
final class AppReport {

    private static final List<String> PARTS = List.of("timeline", "cases", "window", "review");

    private final Console console;

    AppReport(Console console) {
        this.console = console;
    }

    void run(int repeats) throws IOException, InterruptedException {
        ScreenNeeded.require("app");
        Path home = Files.createTempDirectory("sideport-bench-home");
        JsonMapper mapper = JsonMapper.builder().build();
        Map<String, Object> all = new LinkedHashMap<>();
        for (String part : PARTS) {
            console.note("measuring " + part + " …");
            ChildProgram program = ChildProgram.sideport(home);
            String[] arguments = {"bench", part, "--repeats", String.valueOf(repeats)};
            if (console.isJson()) {
                String[] json = java.util.Arrays.copyOf(arguments, arguments.length + 1);
                json[arguments.length] = "--json";
                mapper.readTree(program.run(json))
                        .properties()
                        .forEach(entry -> all.put(entry.getKey(), entry.getValue()));
            } else {
                console.say(program.run(arguments).strip());
            }
        }
        Scratch.delete(home);
        if (console.isJson()) {
            all.put("name", "app");
            console.printJson(all);
        }
    }
}
