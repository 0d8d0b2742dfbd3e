package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.model.Segment;

class DisplaySizeTest {

    private static Segment segment(int width, int height, String aspect, int rotation) {
        return new Segment(
                Path.of("a.mp4"),
                "0",
                1,
                1,
                1,
                0,
                25,
                1,
                false,
                "h264",
                width,
                height,
                aspect,
                rotation,
                false,
                false,
                List.of());
    }

    @Test
    void palDvdPixelsMakeAFourToThreePicture() {
        // 720 x 576 with 16:15 pixels: 768 / 576
        assertThat(DisplaySize.of(segment(720, 576, "16:15", 0)).aspect()).isCloseTo(4.0 / 3.0, within(1e-9));
    }

    @Test
    void aTurnedPictureSwapsItsSides() {
        DisplaySize size = DisplaySize.of(segment(1920, 1080, "1:1", 90));

        assertThat(size.width()).isEqualTo(1080);
        assertThat(size.height()).isEqualTo(1920);
        assertThat(size.aspect()).isCloseTo(9.0 / 16.0, within(1e-9));
    }

    @Test
    void anUnreadableAspectCountsAsSquarePixels() {
        assertThat(DisplaySize.of(segment(640, 480, "0:1", 0)).aspect()).isCloseTo(4.0 / 3.0, within(1e-9));
        assertThat(DisplaySize.of(segment(640, 480, "", 180)).aspect()).isCloseTo(4.0 / 3.0, within(1e-9));
    }
}
