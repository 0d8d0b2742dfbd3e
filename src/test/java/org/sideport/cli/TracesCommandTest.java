package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class TracesCommandTest {

    @TempDir
    Path folder;

    private Path file;

    private record Result(int code, String out, String err) {}

    /** 2 s of stripes that move, then 2 s of black, ten pictures a second. */
    @BeforeEach
    void write() throws IOException {
        file = folder.resolve("part1.mp4");
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(64, 48, 1000, 100, 20))) {
            for (int n = 0; n < 40; n++) {
                int[] pixels = new int[64 * 48];
                Arrays.fill(pixels, 0xFF000000);
                for (int i = 0; n < 20 && i < pixels.length; i++) {
                    pixels[i] = (i % 64 + 3 * n) % 16 < 8 ? 0xFFE0E0E0 : 0xFF404040;
                }
                writer.frame(pixels, n * 100L);
            }
            writer.finish();
        }
    }

    @Test
    void jsonHoldsEveryTraceAndWhatWasFound() {
        Result result = run("traces", file.toString(), "--findings", "--json");
        assertThat(result.code()).as(result.err()).isZero();
        JsonNode json = JsonMapper.builder().build().readTree(result.out());
        assertThat(json.at("/step_us").asLong()).isEqualTo(200_000);
        assertThat(json.at("/duration_us").asLong()).isEqualTo(4_000_000);
        assertThat(json.at("/traces/brightness").size()).isEqualTo(20);
        assertThat(json.at("/traces/scene_change").size()).isEqualTo(20);
        // video black is 16
        assertThat(json.at("/traces/brightness/15").asDouble()).isBetween(15.0, 18.0);
        assertThat(json.at("/findings").size()).isEqualTo(1);
        assertThat(json.at("/findings/0/kind").asString()).isEqualTo("black");
        assertThat(json.at("/findings/0/start_us").asLong()).isEqualTo(2_000_000);
        assertThat(json.at("/findings/0/end_us").asLong()).isEqualTo(4_000_000);
        assertThat(json.at("/findings/0/evidence").asString()).contains("2.0 s");
        assertThat(json.has("proposals")).isTrue();
    }

    @Test
    void theTableHasARowForEachMomentAndIsNotWrittenOver() throws IOException {
        Path csv = folder.resolve("t.csv");
        Result result = run("traces", file.toString(), "--hz", "10", "--csv", csv.toString());
        assertThat(result.code()).as(result.err()).isZero();
        assertThat(result.out()).contains("40 moments").contains("brightness");
        List<String> lines = Files.readAllLines(csv);
        assertThat(lines).hasSize(41);
        assertThat(lines.get(0)).startsWith("time_us,segment,brightness,contrast");
        assertThat(lines.get(40)).startsWith("3900000,0,");
        Result again = run("traces", file.toString(), "--csv", csv.toString());
        assertThat(again.code()).isEqualTo(2);
        assertThat(again.err()).contains("t.csv").contains("already");
        assertThat(Files.readAllLines(csv)).isEqualTo(lines);
        assertThat(run("traces", file.toString(), "--csv", csv.toString(), "--replace")
                        .code())
                .isZero();
        assertThat(Files.readAllLines(csv)).hasSize(21);
    }

    @Test
    void tracesAreKeptInTheFolderNamed() throws IOException {
        Path kept = folder.resolve("kept");
        assertThat(run("traces", file.toString(), "--keep", kept.toString()).code())
                .isZero();
        try (var files = Files.list(kept)) {
            assertThat(files)
                    .singleElement()
                    .satisfies(f -> assertThat(f.toString()).endsWith(".traces"));
        }
        Result second = run("traces", file.toString(), "--keep", kept.toString(), "--findings");
        assertThat(second.code()).isZero();
        assertThat(second.out()).contains("black");
    }

    @Test
    void whatCannotBeMeasuredEndsWithTwo() throws IOException {
        assertThat(run("traces", folder.resolve("gone.mp4").toString()).code()).isEqualTo(2);
        Result rate = run("traces", file.toString(), "--hz", "1000");
        assertThat(rate.code()).isEqualTo(2);
        assertThat(rate.err()).contains("--hz").contains("0.1 to 60");
        Result help = run("traces", "--help");
        assertThat(help.code()).isZero();
        assertThat(help.out()).contains("never tags").contains("--findings");
    }

    private Result run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = Main.run(
                new ArrayList<>(List.of(arguments)).toArray(String[]::new),
                new PrintWriter(out),
                new PrintWriter(err),
                Map.of(),
                folder);
        return new Result(code, out.toString(), err.toString());
    }
}
