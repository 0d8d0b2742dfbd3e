package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.Main;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Runs the commands under {@code stats} as a user does, in this process. */
abstract class StatsRun {

    @TempDir
    Path folder;

    /** What one call ended with and said. */
    record Run(int code, String out, String err) {

        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    /** @param arguments after {@code stats} */
    Run run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = Main.run(
                with(arguments, "stats"), new PrintWriter(out, true), new PrintWriter(err, true), Map.of(), folder);
        return new Run(code, out.toString(), err.toString());
    }

    /** A call that must succeed. */
    Run ran(String... arguments) {
        Run run = run(arguments);
        assertThat(run.code()).as(run.err()).isZero();
        return run;
    }

    /** Path of a file in the test's own folder. */
    String file(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text).toString();
    }

    static String[] with(String[] more, String... first) {
        String[] all = new String[first.length + more.length];
        System.arraycopy(first, 0, all, 0, first.length);
        System.arraycopy(more, 0, all, first.length, more.length);
        return all;
    }
}
