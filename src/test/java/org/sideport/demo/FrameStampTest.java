package org.sideport.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

class FrameStampTest {

    private static final int WIDTH = 320;
    private static final int HEIGHT = 240;

    @Test
    void theLowestBitIsTheLeftmostBlockAndWhiteIsOne() {
        int[] picture = stamped(1);
        int bottomRow = (HEIGHT - 2) * WIDTH;
        assertThat(picture[bottomRow + 3] & 0xFF).isGreaterThan(200);
        assertThat(picture[bottomRow + 11] & 0xFF).isLessThan(50);
    }

    @Test
    void everyBitIsReadBack() {
        for (int bit = 0; bit < FrameStamp.BITS; bit++) {
            assertThat(FrameStamp.read(stamped(1 << bit), WIDTH, HEIGHT)).hasValue(1 << bit);
        }
    }

    @Test
    void aBlendOfTwoFramesIsNotTakenForEither() {
        int[] first = stamped(0b1010);
        int[] second = stamped(0b0110);
        int[] blend = new int[first.length];
        for (int i = 0; i < blend.length; i++) {
            blend[i] = ((first[i] & 0xFEFEFE) >> 1) + ((second[i] & 0xFEFEFE) >> 1);
        }
        assertThat(FrameStamp.read(blend, WIDTH, HEIGHT)).isEqualTo(OptionalInt.empty());
    }

    @Test
    void aNumberThatDoesNotFitIsRefused() {
        assertThatThrownBy(() -> stamped(65_536)).isInstanceOf(IllegalArgumentException.class);
    }

    private static int[] stamped(int number) {
        int[] picture = new int[WIDTH * HEIGHT];
        Arrays.fill(picture, 0xFF808080);
        FrameStamp.write(picture, WIDTH, HEIGHT, number);
        return picture;
    }
}
