package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.console.Console;
import org.sideport.media.corpus.StampedFile;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class ProbeCommandTest {

    @TempDir
    Path folder;

    private record Result(int code, String out, String err) {

        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    private Result run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Console console = new Console(
                new PrintWriter(out, true),
                new PrintWriter(err, true),
                Map.of("SIDEPORT_CONFIG", folder.resolve("config").toString()),
                folder.resolve("home"));
        int code = new CommandTree(console).run(arguments);
        return new Result(code, out.toString(), err.toString());
    }

    /** Frames of one transport stream of 25 a second. */
    private String part(String name, int from, int to) throws IOException {
        Path file = folder.resolve(name);
        StampedFile.frames(120, 25)
                .as("libx264", "mpegts")
                .scene(1)
                .filter(s -> s.number() >= from && s.number() < to ? s : null)
                .write(file);
        return file.toString();
    }

    /** Frames 60 to 83, 0.96 s, are in neither file. */
    @Test
    void jsonTellsWhatIsKnownOfTheBorder() throws Exception {
        String one = part("one.ts", 0, 60);
        String two = part("two.ts", 84, 120);
        JsonNode json = run("probe", one, two, "--json").json();
        assertThat(json.at("/continuous").isBoolean()).isTrue();
        assertThat(json.at("/continuous").asBoolean()).isFalse();
        assertThat(json.at("/joins").size()).isEqualTo(1);
        assertThat(json.at("/joins/0/before").asInt()).isZero();
        assertThat(json.at("/joins/0/after").asInt()).isEqualTo(1);
        assertThat(json.at("/joins/0/kind").asString()).isEqualTo("lost");
        assertThat(json.at("/joins/0/gap_us").asLong()).isEqualTo(960_000);
        assertThat(json.at("/joins/0/evidence/0/source").asString()).isEqualTo("running_clock");
        assertThat(json.at("/joins/0/evidence/0/gap_us").asLong()).isEqualTo(960_000);
        assertThat(json.at("/damage").size()).isZero();
        assertThat(json.at("/proposed_order").isNull()).isTrue();
        assertThat(json.at("/duration_us").asLong()).isEqualTo(96 * 40_000);
        Result text = run("probe", one, two);
        assertThat(text.out()).contains("From one.ts to two.ts: something was lost (about 0:00.960)");
    }

    @Test
    void anotherOrderIsProposedAndTheGivenOneKept() throws Exception {
        String late = part("a.ts", 60, 120);
        String early = part("b.ts", 0, 60);
        JsonNode json = run("probe", late, early, "--json").json();
        assertThat(json.at("/segments/0/file").asString()).isEqualTo(late);
        assertThat(json.at("/proposed_order/0").asString()).isEqualTo(early);
        assertThat(run("probe", late, early).out()).contains("Warning: The order of the files is doubtful");
        JsonNode kept = run("probe", early, late, "--keep-order", "--json").json();
        assertThat(kept.at("/continuous").asBoolean()).isTrue();
        assertThat(kept.at("/proposed_order").isNull()).isTrue();
    }

    /** Without a workspace nothing is made; in one, frame times are kept once for probe, frame and traces. */
    @Test
    void frameTimesAreKeptInTheWorkspaceIfThereIsOne() throws Exception {
        String file = part("one.ts", 0, 60);
        assertThat(run("probe", file).code()).isZero();
        assertThat(folder.resolve("home")).doesNotExist();
        String workspace = folder.resolve("w").toString();
        assertThat(run("workspace", "init", workspace).code()).isZero();
        assertThat(run("traces", file, "--workspace", workspace).code()).isZero();
        assertThat(kept(workspace)).isEqualTo(1);
        assertThat(run("probe", file, "--workspace", workspace).code()).isZero();
        String picture = folder.resolve("p.png").toString();
        assertThat(run("frame", file, "--at", "1", "--out", picture, "--workspace", workspace)
                        .code())
                .isZero();
        assertThat(kept(workspace)).isEqualTo(1);
    }

    private static long kept(String workspace) throws IOException {
        try (Stream<Path> entries = Files.list(Path.of(workspace, "index"))) {
            return entries.filter(entry -> entry.toString().endsWith(".idx")).count();
        }
    }
}
