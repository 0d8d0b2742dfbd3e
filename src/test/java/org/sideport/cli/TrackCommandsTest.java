package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A drawn eye of 160 pixels across, 20 pixels right of the middle, with a dark mark that moves 2 pixels a frame; then black. */
class TrackCommandsTest {

    private static final int WIDTH = 320;
    private static final int HEIGHT = 240;

    @TempDir
    static Path folder;

    private static Path file;

    private record Result(int code, String out, String err) {}

    @BeforeAll
    static void write() throws IOException {
        file = folder.resolve("part1.mp4");
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(WIDTH, HEIGHT, 1000, 100, 20))) {
            for (int n = 0; n < 30; n++) {
                int[] pixels = new int[WIDTH * HEIGHT];
                for (int i = 0; i < pixels.length; i++) {
                    double x = i % WIDTH + 0.5;
                    double y = i / WIDTH + 0.5;
                    double limbus = 1 / (1 + Math.exp((80 - Math.hypot(x - 180, y - 120)) / 1.5));
                    double grey = 90 + 100 * limbus;
                    grey = Math.max(Math.abs(x - 150 - 2 * n), Math.abs(y - 130)) < 5 ? 20 : grey;
                    int level = n < 20 ? (int) grey : 0;
                    pixels[i] = 0xFF000000 | level << 16 | level << 8 | level;
                }
                writer.frame(pixels, n * 100L);
            }
            writer.finish();
        }
    }

    @Test
    void theEyeIsDescribedAndWhatWasNotFoundIsSaid() {
        Result result = run("track", "eye", file.toString(), "--hz", "5", "--json");
        assertThat(result.code()).as(result.err()).isZero();
        JsonNode json = JsonMapper.builder().build().readTree(result.out());
        assertThat(json.at("/moments").asInt()).isEqualTo(15);
        assertThat(json.at("/found").asInt()).isEqualTo(10);
        assertThat(json.at("/missing/dark").asInt()).isEqualTo(5);
        assertThat(json.at("/median_limbus_diameter_px").asDouble()).isCloseTo(160, within(2.0));
        // 20 of the 240 pixels of the shorter side
        assertThat(json.at("/median_offset").asDouble()).isCloseTo(20 / 240.0, within(0.005));
        assertThat(json.at("/centred_share").asDouble()).isEqualTo(1);
        assertThat(json.at("/samples/0/limbus/x").asDouble()).isCloseTo(180, within(1.0));
        assertThat(json.at("/samples/14/missing").asString()).isEqualTo("dark");
        assertThat(json.at("/samples/14/time_us").asLong()).isEqualTo(2_800_000);
        Result said = run("track", "eye", file.toString(), "--from", "0.5", "--to", "1.5");
        assertThat(said.out())
                .contains("1 of 1 moment")
                .contains("centred within 15 %")
                .contains("passing or failing");
    }

    @Test
    void theTipIsFollowedInPixelsAndInMillimetres() throws IOException {
        Path csv = folder.resolve("tip.csv");
        Result result = run(
                "track",
                "tip",
                file.toString(),
                "--at",
                "0",
                "--x",
                "150",
                "--y",
                "130",
                "--until",
                "3",
                "--white-to-white",
                "12",
                "--csv",
                csv.toString(),
                "--json");
        assertThat(result.code()).as(result.err()).isZero();
        JsonNode json = JsonMapper.builder().build().readTree(result.out());
        // black from frame 20 on
        assertThat(json.at("/lost_us").asLong()).isEqualTo(2_000_000);
        assertThat(json.at("/points").size()).isEqualTo(20);
        // 19 steps of 2 pixels; the limbus of 160 pixels is 12 mm
        assertThat(json.at("/in_picture/path_length_px").asDouble()).isCloseTo(38, within(1.5));
        assertThat(json.at("/in_picture/path_length_mm").asDouble()).isCloseTo(38 * 12 / 160.0, within(0.15));
        assertThat(json.at("/relative_to_eye/path_length_px").asDouble()).isCloseTo(38, within(3.0));
        List<String> lines = Files.readAllLines(csv);
        assertThat(lines).hasSize(21);
        assertThat(lines.get(1)).startsWith("0,0,150.000,130.000,1.000,");
        Result said = run("track", "tip", file.toString(), "--at", "0", "--x", "150", "--y", "130");
        assertThat(said.out())
                .contains("Lost at 0:02.000")
                .contains("not competence")
                .contains("20 frames");
    }

    @Test
    void helpHasAnExampleAndBadInputEndsWithTwo() {
        assertThat(run("track", "tip", "--help").out())
                .contains("Example: sideport track tip")
                .contains("not competence");
        assertThat(run("track", "eye", "--help").out())
                .contains("Example: sideport track eye")
                .contains("ormative");
        assertThat(run("track", "eye", file.toString(), "--hz", "99").code()).isEqualTo(2);
        assertThat(run("track", "eye", file.toString(), "--limit", "0").code()).isEqualTo(2);
        assertThat(run("track", "tip", file.toString(), "--at", "0", "--x", "999", "--y", "1")
                        .code())
                .isEqualTo(2);
        assertThat(run("track", "tip", file.toString(), "--at", "50", "--x", "9", "--y", "1")
                        .code())
                .isEqualTo(2);
        assertThat(run("track", "eye", folder.resolve("gone.mp4").toString()).code())
                .isEqualTo(2);
    }

    private static Result run(String... arguments) {
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
