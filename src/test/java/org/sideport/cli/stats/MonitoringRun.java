package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.Main;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Runs the commands of charts within this process. */
abstract class MonitoringRun {

    @TempDir
    Path folder;

    record Run(int code, String out, String err) {

        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    Run run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        String[] all = new String[arguments.length + 1];
        all[0] = "stats";
        System.arraycopy(arguments, 0, all, 1, arguments.length);
        int code = Main.run(all, new PrintWriter(out, true), new PrintWriter(err, true), Map.of(), folder);
        return new Run(code, out.toString(), err.toString());
    }

    Run ran(String... arguments) {
        Run run = run(arguments);
        assertThat(run.code()).as(run.err()).isZero();
        return run;
    }

    String file(String text) throws IOException {
        return Files.writeString(folder.resolve("log.csv"), text).toString();
    }

    /** Cases 1 to n, of which some failed. */
    String log(int n, Integer... failures) throws IOException {
        Set<Integer> failed = Set.of(failures);
        StringBuilder text = new StringBuilder("case_number,failure\n");
        for (int i = 1; i <= n; i++) {
            text.append(i).append(',').append(failed.contains(i) ? 1 : 0).append('\n');
        }
        return file(text.toString());
    }

    static List<Integer> cases(JsonNode points) {
        List<Integer> cases = new ArrayList<>();
        points.forEach(point -> cases.add(point.at("/case").asInt()));
        return cases;
    }

    static String[] with(String[] more, String... first) {
        List<String> all = new ArrayList<>(List.of(first));
        all.addAll(List.of(more));
        return all.toArray(String[]::new);
    }
}
