package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.ByteBuffer;
import org.junit.jupiter.api.Test;

class PictureSurfaceTest {

    private final PictureSurface surface = PictureSurface.withoutScreen();

    private static ByteBuffer picture(int width, int height, int value) {
        ByteBuffer picture = ByteBuffer.allocateDirect(width * height * 4);
        while (picture.hasRemaining()) {
            picture.put((byte) value);
        }
        return picture;
    }

    @Test
    void aCopyOutlivesThePlayersBuffer() {
        surface.resize(4, 2);
        ByteBuffer buffer = picture(4, 2, 7);
        surface.display(buffer);
        LivePicture first = surface.shown();
        buffer.clear();
        buffer.put(0, (byte) 99); // LibVLC goes on drawing into its one buffer
        surface.display(buffer);

        assertThat(first.bgra()).containsOnly(7);
        assertThat(first.display()).isEqualTo(1);
        assertThat(surface.shown().bgra()[0]).isEqualTo((byte) 99);
        assertThat(surface.shown().display()).isEqualTo(2);
        assertThat(surface.shown().nanos()).isGreaterThanOrEqualTo(first.nanos());
    }

    @Test
    void whatWaitsForTheScreenIsNotYetShown() {
        PictureSurface waiting = new PictureSurface(work -> {});
        waiting.resize(4, 2);
        waiting.display(picture(4, 2, 7));

        assertThat(waiting.displays()).isEqualTo(1);
        assertThat(waiting.shown()).isNull();
    }

    @Test
    void aNewSizeForgetsTheOldPicture() {
        surface.resize(4, 2);
        surface.display(picture(4, 2, 7));
        surface.resize(6, 2);
        assertThat(surface.shown()).isNull();
        surface.display(picture(4, 2, 7)); // too small for what was agreed
        assertThat(surface.shown()).isNull();
        surface.display(picture(6, 2, 8));
        assertThat(surface.shown().width()).isEqualTo(6);
    }
}
