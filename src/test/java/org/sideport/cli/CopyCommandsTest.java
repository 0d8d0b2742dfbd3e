package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.demo.FrameStamp;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.media.WrittenVideo;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The commands that write copies, on two files of 50 and 30 frames of 40 ms that carry their number. */
class CopyCommandsTest {

    @TempDir
    Path folder;

    private String one;
    private String two;
    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    @BeforeEach
    void makeARecording() throws IOException {
        one = write("part9.mp4", 0, 50);
        two = write("part10.mp4", 50, 30);
    }

    private String write(String name, int first, int count) throws IOException {
        Path file = folder.resolve(name);
        VideoOptions options = VideoOptions.silent(320, 180, 25, 1, 20).withAudioRate(48_000);
        try (VideoWriter writer = VideoWriter.open(file, options)) {
            for (int i = 0; i < count; i++) {
                int[] argb = new int[320 * 180];
                Arrays.fill(argb, 0xFFB0B0B0);
                FrameStamp.write(argb, 320, 180, first + i);
                writer.frame(argb, i);
                writer.sound(new float[1920]);
            }
            writer.finish();
        }
        return file.toString();
    }

    private int run(String... arguments) {
        out.getBuffer().setLength(0);
        err.getBuffer().setLength(0);
        return org.sideport.cli.Main.run(
                arguments, new PrintWriter(out, true), new PrintWriter(err, true), Map.of(), folder);
    }

    private JsonNode json() {
        return JsonMapper.builder().build().readTree(out.toString());
    }

    @Test
    void clipCutsOverTheBorderOfFilesInNaturalOrder() throws IOException {
        String target = folder.resolve("clip.mp4").toString();
        int code = run("clip", two, one, "--from", "1.9", "--to", "0:02.2", "--out", target, "--json");
        assertThat(code).as(err.toString()).isZero();
        // frames 47 (from 1.88 s, on the screen at 1.9 s) to 54 (until 2.2 s)
        assertThat(json().at("/from_us").asLong()).isEqualTo(1_880_000);
        assertThat(json().at("/to_us").asLong()).isEqualTo(2_200_000);
        assertThat(json().at("/frames").asLong()).isEqualTo(8);
        assertThat(json().at("/exact").asBoolean()).isTrue();
        WrittenVideo.Frame first = WrittenVideo.read(Path.of(target)).frames().get(0);
        assertThat(FrameStamp.read(first.argb(), 320, 180)).hasValue(47);

        assertThat(run("clip", two, one, "--from", "1.9", "--to", "2.2", "--out", target))
                .isEqualTo(2);
        assertThat(err.toString()).contains("--replace");
        assertThat(run("clip", one, two, "--from", "1.9", "--to", "2.2", "--out", target, "--replace", "--fast"))
                .isEqualTo(2);
        assertThat(err.toString()).contains("2 files").contains("leave out --fast");
        assertThat(run("clip", one, "--from", "0.5", "--to", "1", "--out", target, "--replace", "--fast", "--no-sound"))
                .isZero();
        assertThat(out.toString()).contains("copied from key frame on").contains("0:00.000 to");
    }

    @Test
    void neutralCopyWritesAllFilesUnderNeutralNamesAndSaysWhatIsGone() throws IOException {
        String target = Files.createDirectory(folder.resolve("neutral")).toString();
        assertThat(run("neutral-copy", two, one, "--out", target, "--code", "T03", "--names-only", "--json"))
                .isZero();
        assertThat(json().at("/names/0/file").asString()).endsWith("T03_part-01.mp4");
        assertThat(folder.resolve("neutral")).isEmptyDirectory();
        int code = run("neutral-copy", two, one, "--out", target, "--code", "T03", "--no-sound", "--json");
        assertThat(code).as(err.toString()).isZero();
        assertThat(json().at("/copies/0/source").asString()).endsWith("part9.mp4");
        assertThat(json().at("/copies/0/frames").asLong()).isEqualTo(50);
        assertThat(json().at("/copies/1/frames").asLong()).isEqualTo(30);
        assertThat(json().at("/copies/0/removed").toString()).contains("\"kind\":\"sound\"");
        assertThat(folder.resolve("neutral").resolve("T03_part-02.mp4")).isRegularFile();
        // refused as a whole where one name is taken: the other is not written either
        Files.delete(folder.resolve("neutral").resolve("T03_part-01.mp4"));
        assertThat(run("neutral-copy", two, one, "--out", target, "--code", "T03"))
                .isEqualTo(2);
        assertThat(folder.resolve("neutral").resolve("T03_part-01.mp4")).doesNotExist();
    }

    @Test
    void maskFindsWritingAndOnlyLooks() throws IOException {
        Path file = folder.resolve("named.mp4");
        java.awt.image.BufferedImage image =
                new java.awt.image.BufferedImage(640, 360, java.awt.image.BufferedImage.TYPE_INT_RGB);
        java.awt.Graphics2D g = image.createGraphics();
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(640, 360, 1, 1, 20))) {
            for (int i = 0; i < 10; i++) {
                // the scene changes its brightness every second, the writing does not
                g.setColor(new java.awt.Color(60 + i % 2 * 60, 40, 40));
                g.fillRect(0, 0, 640, 360);
                g.setColor(java.awt.Color.WHITE);
                g.setFont(new java.awt.Font(java.awt.Font.SANS_SERIF, java.awt.Font.PLAIN, 24));
                g.drawString("T03 2026-03-09", 20, 40);
                writer.frame(image, i);
            }
            writer.finish();
        }
        assertThat(run("mask", file.toString(), "--find", "--json")).isZero();
        JsonNode area = json().at("/areas/0");
        assertThat(json().at("/areas").size()).isEqualTo(1);
        // the base line is at 40 and the letters are about 18 high
        assertThat(area.at("/y").asInt()).isBetween(5, 23);
        assertThat(area.at("/y").asInt() + area.at("/height").asInt()).isBetween(40, 55);
        assertThat(area.at("/x").asInt()).isLessThanOrEqualTo(22);
        assertThat(err.toString()).contains("can be missed");
        assertThat(run("mask", one, "--find", "--out", "x.mp4")).isEqualTo(2);
        assertThat(run("mask", one)).isEqualTo(2);
        assertThat(err.toString()).contains("--area").contains("--find");
    }

    @Test
    void maskHidesForTheTimeThatIsNamed() throws IOException {
        String target = folder.resolve("masked.mp4").toString();
        int code = run("mask", one, two, "--area", "20,20,60,40@1-1.4", "--out", target, "--json");
        assertThat(code).as(err.toString()).isZero();
        // 1.0 to 1.4 s: ten frames of 40 ms
        assertThat(json().at("/masked_frames").asLong()).isEqualTo(10);
        assertThat(json().at("/frames").asLong()).isEqualTo(80);
        assertThat(json().at("/duration_us").asLong()).isEqualTo(3_200_000);
        assertThat(json().at("/sound").asBoolean()).isFalse();
        WrittenVideo copy = WrittenVideo.read(Path.of(target));
        assertThat(copy.frames().get(24).argb()[40 * 320 + 50] & 0xFF).isBetween(0xA0, 0xC0);
        assertThat(copy.frames().get(25).argb()[40 * 320 + 50] & 0xFF).isLessThan(20);
        assertThat(run("mask", one, "--area", "5,5", "--out", target, "--replace"))
                .isEqualTo(2);
        assertThat(err.toString()).contains("is not an area");
    }

    @Test
    void proxyAndFilmstripAndRepairWriteWhatTheySay() throws IOException {
        String small = folder.resolve("small.mp4").toString();
        assertThat(run("proxy", one, two, "--height", "90", "--out", small, "--json"))
                .isZero();
        assertThat(json().at("/width").asLong()).isEqualTo(160);
        assertThat(json().at("/frames").asLong()).isEqualTo(80);

        String strip = folder.resolve("strip.png").toString();
        assertThat(run("filmstrip", one, two, "--stills", "4", "--height", "90", "--out", strip, "--json"))
                .isZero();
        // 3.2 s in four stretches of 0.8 s: middles at 0.4, 1.2, 2.0, 2.8 s
        assertThat(json().at("/stills/2/index").asLong()).isEqualTo(50);
        assertThat(json().at("/stills/3/frame_us").asLong()).isEqualTo(2_800_000);
        assertThat(ImageIO.read(Path.of(strip).toFile()).getWidth()).isEqualTo(640);

        byte[] bytes = Files.readAllBytes(Path.of(one));
        Path broken = Files.write(folder.resolve("broken.mp4"), Arrays.copyOf(bytes, bytes.length * 4 / 5));
        String saved = folder.resolve("saved.mp4").toString();
        assertThat(run("repair", broken.toString(), "--out", saved, "--json"))
                .as(err.toString())
                .isZero();
        assertThat(json().at("/promised_us").asLong()).isEqualTo(2_000_000);
        assertThat(json().at("/frames").asLong()).isBetween(5L, 49L);
        assertThat(run(
                        "repair",
                        broken.toString(),
                        "--out",
                        folder.resolve("x.avi").toString()))
                .isEqualTo(2);
        assertThat(err.toString()).contains(".mp4 file");
    }
}
