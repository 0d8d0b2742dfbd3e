package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.demo.FrameStamp;
import org.sideport.media.FrameRef;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

class FilmstripTest {

    @TempDir
    Path folder;

    @Test
    void theStillsAreThoseOfTheMiddlesOfEqualStretches() throws IOException {
        Path one = Stamped.write(folder.resolve("p1.mp4"), Stamped.even(50), 0);
        Path two = Stamped.write(folder.resolve("p2.mp4"), Stamped.even(50), 50);
        Path out = folder.resolve("strip.png");
        Filmstrip.Result result = Filmstrip.write(List.of(one, two), 5, 180, out, false, Progress.NONE);
        // 4 s in five stretches of 0.8 s: middles 0.4, 1.2, 2.0, 2.8, 3.6 s, frames of 40 ms: 10, 30, 50, 70, 90
        List<Long> expected = List.of(10L, 30L, 50L, 70L, 90L);
        assertThat(result.stills()).extracting(FrameRef::number).isEqualTo(expected);
        BufferedImage strip = ImageIO.read(out.toFile());
        assertThat(strip.getWidth()).isEqualTo(5 * 320);
        assertThat(strip.getHeight()).isEqualTo(180);
        List<Long> stamps = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            int[] argb = strip.getRGB(i * 320, 0, 320, 180, null, 0, 320);
            stamps.add((long) FrameStamp.read(argb, 320, 180).orElse(-1));
        }
        assertThat(stamps).isEqualTo(expected);
    }

    @Test
    void stillsAreScaledAndNothingIsOverwritten() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(10), 0);
        Path out = folder.resolve("strip.png");
        // 320 : 180 at 45 rows is 80 wide
        assertThat(Filmstrip.write(List.of(source), 3, 45, out, false, Progress.NONE)
                        .width())
                .isEqualTo(240);
        byte[] before = Files.readAllBytes(out);
        assertThatThrownBy(() -> Filmstrip.write(List.of(source), 2, 45, out, false, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("--replace");
        assertThat(Files.readAllBytes(out)).isEqualTo(before);
        assertThatThrownBy(() -> Filmstrip.write(List.of(source), 0, 45, out, true, Progress.NONE))
                .isInstanceOf(InputException.class);
    }
}
