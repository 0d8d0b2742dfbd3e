package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.console.Console;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class TalkCommandsTest {

    @TempDir
    Path folder;

    private Path dir;

    private record Result(int code, String out, String err) {
        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    @BeforeEach
    void aCase() {
        dir = folder.resolve("w");
        try (Workspace workspace = FreshWorkspace.in(dir)) {
            workspace.change(stores -> stores.cases()
                    .add(new SurgicalCase("C-12", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
        }
    }

    private Result run(String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        List<String> all = new ArrayList<>(Arrays.asList(args));
        all.addAll(List.of("--workspace", dir.toString()));
        int code = new CommandTree(new Console(
                        new PrintWriter(out, true),
                        new PrintWriter(err, true),
                        Map.of("SIDEPORT_CONFIG", folder.toString()),
                        folder))
                .run(all.toArray(String[]::new));
        return new Result(code, out.toString(), err.toString());
    }

    private String add(String... more) {
        List<String> args = new ArrayList<>(List.of("comments", "add", "--case", "C-12", "--json"));
        args.addAll(List.of(more));
        Result result = run(args.toArray(String[]::new));
        assertThat(result.code()).as(result.err()).isZero();
        return result.json().get("id").asString();
    }

    @Test
    void commentsAreAddedAnsweredListedByReaderAndExported() throws IOException {
        String id = add("--by", "A1", "--at", "3:41", "--tone", "praise", "--text", "a round, \"steady\" rhexis");
        add("--by", "A1", "--at", "10", "--to", "12.5", "--text", "hold the edge nearer");
        add("--by", "T03", "--answers", id, "--text", "thank you");

        JsonNode list = run("comments", "list", "--case", "C-12", "--json").json();
        assertThat(list.at("/comments").size()).isEqualTo(2);
        assertThat(list.at("/comments/0/from_us").asLong()).isEqualTo(10_000_000);
        assertThat(list.at("/comments/0/to_us").asLong()).isEqualTo(12_500_000);
        assertThat(list.at("/comments/0/tone").asString()).isEqualTo("improve");
        assertThat(list.at("/comments/0/unread").isNull()).isTrue();
        assertThat(list.at("/comments/1/to_us").isNull()).isTrue();
        assertThat(list.at("/comments/1/replies/0/author").asString()).isEqualTo("T03");

        JsonNode unread = run("comments", "list", "--case", "C-12", "--reader", "A1", "--unread", "--json")
                .json();
        assertThat(unread.at("/comments").size()).isEqualTo(1);
        assertThat(unread.at("/comments/0/id").asString()).isEqualTo(id);
        assertThat(run("comments", "list", "--case", "C-12", "--tone", "praise").out())
                .contains("3:41.000  praise by A1: a round")
                .contains("T03: thank you")
                .doesNotContain("hold the edge");

        Path csv = folder.resolve("c.csv");
        assertThat(run("comments", "export", "--case", "C-12", csv.toString()).code())
                .isZero();
        assertThat(Files.readString(csv).lines())
                .hasSize(4)
                .contains("C-12," + id + ",,A1,praise,221,,,,\"a round, \"\"steady\"\" rhexis\"");
        Result again = run("comments", "export", "--case", "C-12", csv.toString());
        assertThat(again.code()).isEqualTo(2);
        assertThat(again.err()).contains("exists already");
        Path json = folder.resolve("c.json");
        assertThat(run("comments", "export", "--case", "C-12", json.toString()).code())
                .isZero();
        assertThat(Files.readString(json)).contains("\"drawing\"");
        assertThat(folder.toFile().list()).noneMatch(name -> name.endsWith(".part"));
    }

    @Test
    void whatCannotBeCommentedSaysWhy() {
        assertThat(run("comments", "add", "--case", "C-12", "--by", "A1", "--text", "x")
                        .err())
                .contains("--at");
        assertThat(run("comments", "add", "--case", "C-12", "--by", "A1", "--text", "x", "--at", "1", "--tone", "harsh")
                        .err())
                .contains("praise, improve or question");
        assertThat(run("comments", "list", "--case", "C-99").code()).isEqualTo(2);
        assertThat(run("measure", "list", "--case", "C-12").out()).contains("Nothing was measured");
    }

    private Path points() throws IOException {
        List<String> rows = new ArrayList<>(List.of("frame,shape,x,y"));
        for (int i = 0; i < 12; i++) {
            double angle = 2 * Math.PI * i / 12;
            double off = i % 2 == 0 ? 0.3 : -0.3;
            // 800 px for 11.71 mm; a rhexis of 350 px, 20 px to the right
            rows.add(row("1", "limbus", 960 + (400 + off) * Math.cos(angle), 540 + (400 + off) * Math.sin(angle)));
            rows.add(row("1", "rhexis", 980 + (175 + off) * Math.cos(angle), 540 + (175 + off) * Math.sin(angle)));
        }
        rows.add(row("1", "distance", 100, 100));
        rows.add(row("1", "distance", 400, 500));
        rows.add(row("2", "distance", 100, 100));
        rows.add(row("2", "distance", 400, 500));
        return Files.write(folder.resolve("p.csv"), rows);
    }

    private static String row(String frame, String shape, double x, double y) {
        return frame + "," + shape + "," + x + "," + y;
    }

    @Test
    void pointsOfAFileAreMeasuredAndAFrameWithoutALimbusIsRefused() throws IOException {
        Result result = run("measure", points().toString(), "--json");
        assertThat(result.code()).as("one was refused").isEqualTo(1);
        JsonNode all = result.json().at("/measurements");
        double mmPerPx = 11.71 / 800;
        assertThat(all.at("/0/values/scale/value").asDouble()).isCloseTo(mmPerPx, within(1e-5));
        JsonNode diameter = all.at("/1/values/apparent_diameter");
        assertThat(diameter.at("/value").asDouble()).isCloseTo(350 * mmPerPx, within(0.01));
        assertThat(diameter.at("/se").asDouble())
                .as("the spread of white-to-white, 3.6 %")
                .isCloseTo(350 * mmPerPx * 0.42 / 11.71, within(0.005));
        assertThat(all.at("/1/values/decentration_from_limbus/value").asDouble())
                .isCloseTo(20 * mmPerPx, within(0.01));
        // √(300² + 400²) = 500
        assertThat(all.at("/2/values/distance/value").asDouble()).isCloseTo(500 * mmPerPx, within(0.01));
        assertThat(all.at("/3/refused/remedy").asString()).contains("on this very frame");
        assertThat(all.at("/1/method").asString()).contains("Cornea 24:259").contains("not corrected");

        Result own = run("measure", points().toString(), "--white-to-white", "12", "--json");
        assertThat(own.json()
                        .at("/measurements/1/values/apparent_diameter/value")
                        .asDouble())
                .isCloseTo(350 * 12 / 800.0, within(0.01));
        assertThat(run("measure", points().toString()).out())
                .contains("apparent diameter: 5.12 ± 0.18 mm")
                .contains("refused: this frame has no scale");
    }

    @Test
    void aFileOfPointsThatDoesNotDoSaysWhereAndHow() throws IOException {
        Path bad = Files.write(folder.resolve("b.csv"), List.of("shape,x,y", "limbus,1,2", "limbus,three,4"));
        Result result = run("measure", bad.toString());
        assertThat(result.code()).isEqualTo(2);
        assertThat(result.err()).contains("three").contains("b.csv");
        Path few = Files.write(folder.resolve("f.csv"), List.of("shape,x,y", "limbus,1,2", "limbus,3,4"));
        assertThat(run("measure", few.toString()).err()).contains("limbus with 2 points");
        assertThat(run("measure").code()).isEqualTo(2);
        assertThat(run("measure", few.toString(), "--white-to-white", "120").err())
                .contains("cornea");
    }
}
