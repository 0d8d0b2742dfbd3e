package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.cli.Main;
import org.sideport.demo.EyeScript;
import org.sideport.demo.EyeScripts;
import org.sideport.demo.FrameStamp;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/**
 * The drawn recordings carry their frame number in each picture, and the script that drew them knows when each frame is
 * shown: both are independent of how files are read here.
 */
class ExactFramesTest {

    private static final Path DATA = Path.of("demo-data");
    private static final int TIMES = 220;

    @TempDir
    Path folder;

    /** Through the command, as a user gets it: 220 random times, and the frames on which mistakes are likely. */
    @Test
    void theFrameCommandShowsTheFrameThatTheTruthExpects() throws Exception {
        EyeScript script = script("D-001");
        int split = script.clock().fileFrames().get(0);
        int last = script.clock().frames() - 1;
        Random random = new Random(20261125);
        Set<Integer> frames = new LinkedHashSet<>(List.of(0, 1, split - 1, split, split + 1, last - 1, last));
        while (frames.size() < TIMES) {
            frames.add(random.nextInt(last + 1));
        }
        for (int frame : frames) {
            long start = script.clock().at(frame).micros();
            long end = frame == last
                    ? script.clock().duration().micros()
                    : script.clock().at(frame + 1).micros();
            // the first and the last microsecond of a frame, or any between
            long asked = frame % 3 == 0 ? start : frame % 3 == 1 ? end - 1 : start + random.nextLong(end - start);
            assertThat(stampAt(script, asked)).as("at " + asked + " us").isEqualTo(frame);
        }
    }

    private int stampAt(EyeScript script, long us) throws Exception {
        Path png = folder.resolve("frame.png");
        List<String> arguments = new ArrayList<>(List.of("frame"));
        files(script).forEach(f -> arguments.add(f.toString()));
        arguments.addAll(List.of("--at", MediaTime.ofMicros(us).toSecondsText(), "--out", png.toString(), "--json"));
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = Main.run(
                arguments.toArray(String[]::new), new PrintWriter(out), new PrintWriter(err), Map.of(), folder);
        assertThat(code).as(err.toString()).isZero();
        BufferedImage image = ImageIO.read(png.toFile());
        int[] argb = image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth());
        return FrameStamp.read(argb, image.getWidth(), image.getHeight()).orElse(-1);
    }

    @ParameterizedTest
    @ValueSource(strings = {"D-001", "D-002", "D-003"})
    void steppingForthAndBackMeetsEachFrameOnceWithItsOwnTime(String code) {
        EyeScript script = script(code);
        try (RecordingFrames frames = RecordingFrames.open(files(script), Progress.NONE)) {
            assertThat(frames.frameCount()).isEqualTo(script.clock().frames());
            assertThat(frames.duration()).isEqualTo(script.clock().duration());
            int middle = script.clock().fileFrames().get(0) / 2;
            int border = script.clock().fileFrames().size() > 1
                    ? script.clock().fileFrames().get(0)
                    : middle;
            FrameRef at = frames.frame(border - 70);
            for (int n = border - 70; n < border + 70; n++) {
                assertThat(at.start()).isEqualTo(script.clock().at(n));
                assertThat(stamp(frames.picture(at))).isEqualTo(n);
                at = frames.next(at);
                assertThat(at).isNotNull();
            }
            for (int n = border + 70; n > border - 70; n--) {
                assertThat(stamp(frames.picture(at))).isEqualTo(n);
                at = frames.previous(at);
                assertThat(at).isNotNull();
            }
        }
    }

    @Test
    void theEndsOfARecordingHaveNoNeighboursBeyond() {
        EyeScript script = script("D-001");
        try (RecordingFrames frames = RecordingFrames.open(files(script), Progress.NONE)) {
            assertThat(frames.previous(frames.frame(0))).isNull();
            FrameRef last = frames.frame(frames.frameCount() - 1);
            assertThat(frames.next(last)).isNull();
            assertThat(frames.frameAt(frames.duration().plus(MediaTime.parse("10"))))
                    .isEqualTo(last);
            assertThat(last.end()).isEqualTo(frames.duration());
        }
    }

    @Test
    void jumpingAboutShowsTheSameAsReadingThrough() {
        EyeScript script = script("D-003");
        Random random = new Random(7);
        try (RecordingFrames frames = RecordingFrames.open(files(script), Progress.NONE)) {
            for (int i = 0; i < 60; i++) {
                int n = random.nextInt(script.clock().frames());
                FrameRef found = frames.frameAt(script.clock().at(n));
                assertThat(found.number()).isEqualTo(n);
                FramePicture picture = frames.picture(found);
                assertThat(stamp(picture)).isEqualTo(n);
                // 704 × 480 with pixels of 10:11, as the file was made: 704 × 10 / (480 × 11) = 4/3
                assertThat(picture.displayAspect()).isEqualTo(4 / 3.0);
            }
        }
    }

    private static int stamp(FramePicture picture) {
        int[] argb = new int[picture.width() * picture.height()];
        byte[] bgra = picture.bgra();
        for (int i = 0; i < argb.length; i++) {
            argb[i] = (bgra[4 * i + 2] & 255) << 16 | (bgra[4 * i + 1] & 255) << 8 | bgra[4 * i] & 255;
        }
        return FrameStamp.read(argb, picture.width(), picture.height()).orElse(-1);
    }

    private static EyeScript script(String code) {
        return EyeScripts.all().stream()
                .filter(s -> s.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    private static List<Path> files(EyeScript script) {
        return script.files().stream().map(DATA::resolve).toList();
    }
}
