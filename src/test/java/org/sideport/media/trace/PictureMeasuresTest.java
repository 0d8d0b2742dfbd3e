package org.sideport.media.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.sideport.media.SmallPicture;

/** Figures worked out by hand from the definitions. */
class PictureMeasuresTest {

    /**
     * One inside pixel of 3 × 3. Sobel (Pertuz et al. 2013, GRA6): Gx = (20 + 2·110 + 200) − (10 + 2·40 + 90) = 440 − 180 =
     * 260; Gy = (90 + 2·150 + 200) − (10 + 2·30 + 20) = 590 − 90 = 500; 260² + 500² = 317 600.
     */
    @Test
    void tenengradOfNinePixelsIsWhatTheMasksGive() {
        byte[] luma = bytes(10, 30, 20, 40, 60, 110, 90, 150, 200);
        assertThat(Sharpness.tenengrad(luma, 3, 3)).isEqualTo(317_600);
    }

    /**
     * Two inside pixels of 4 × 3. Laplacians (LAP4): 30 + 40 + 150 + 110 − 4·60 = 90 and 20 + 60 + 200 + 70 − 4·110 = −90;
     * mean 0, variance (90² + 90²) / 2 = 8100.
     */
    @Test
    void varianceOfTheLaplacianOfTwelvePixelsIsWhatTheMaskGives() {
        byte[] luma = bytes(10, 30, 20, 5, 40, 60, 110, 70, 90, 150, 200, 15);
        assertThat(Sharpness.laplacianVariance(luma, 4, 3)).isEqualTo(8100);
    }

    /** A dot of 100 in 5 × 5: Laplacian −400 once, 100 four times, 0 four times: 200 000 / 9. */
    @Test
    void aDotSpreadsOverItsNeighbours() {
        byte[] luma = new byte[25];
        luma[12] = 100;
        assertThat(Sharpness.laplacianVariance(luma, 5, 5)).isCloseTo(200_000 / 9.0, within(1e-9));
        // Gx² + Gy²: beside the dot 200², at its corners 100² + 100²; 4 · 40 000 + 4 · 20 000, over 9
        assertThat(Sharpness.tenengrad(luma, 5, 5)).isCloseTo(240_000 / 9.0, within(1e-9));
    }

    @Test
    void flatAndTinyPicturesHaveNoSharpness() {
        byte[] flat = new byte[100];
        Arrays.fill(flat, (byte) 200);
        assertThat(Sharpness.tenengrad(flat, 10, 10)).isZero();
        assertThat(Sharpness.laplacianVariance(flat, 10, 10)).isZero();
        assertThat(Sharpness.tenengrad(new byte[4], 2, 2)).isZero();
        assertThat(Sharpness.laplacianVariance(new byte[4], 2, 2)).isZero();
    }

    /** 200 and 250 as bytes are negative in Java: mean 225, deviation 25. */
    @Test
    void bytesHaveNoSign() {
        byte[] values = bytes(200, 250);
        assertThat(PictureMeasures.mean(values)).isEqualTo(225);
        assertThat(PictureMeasures.standardDeviation(values)).isEqualTo(25);
        assertThat(PictureMeasures.meanDifference(values, bytes(100, 255))).isEqualTo((100 + 5) / 2.0);
    }

    /**
     * Coded colours by ITU-R BT.601 (Y = 16 + 65.481 R + 128.553 G + 24.966 B, Cb = 128 − 37.797 R − 74.203 G + 112 B, Cr =
     * 128 + 112 R − 93.786 G − 18.214 B, R, G, B from 0 to 1).
     */
    @Test
    void redSaturationIsThatOfRedAndOfNothingElse() {
        // red 1, 0, 0: (1 − 0) / 1
        assertThat(PictureMeasures.redSaturation(plain(81, 90, 240))).isCloseTo(1, within(0.02));
        // 0.8, 0.4, 0.4: Y 129.7, Cb 112.9, Cr 172.8; (0.8 − 0.4) / 0.8
        assertThat(PictureMeasures.redSaturation(plain(130, 113, 173))).isCloseTo(0.5, within(0.02));
        // grey, blue, green, and a red too dark to tell
        assertThat(PictureMeasures.redSaturation(plain(128, 128, 128))).isZero();
        assertThat(PictureMeasures.redSaturation(plain(41, 240, 110))).isZero();
        assertThat(PictureMeasures.redSaturation(plain(145, 54, 34))).isZero();
        assertThat(PictureMeasures.redSaturation(plain(20, 126, 132))).isZero();
    }

    /** The same texture, darker by a filter and brighter by 7, does not move and is found again. */
    @Test
    void aChangeOfLightIsNoChangeOfScene() {
        SmallPicture before = textured(1, 0, 1, 0);
        PictureChange change = PictureChange.between(before, textured(1, 0, 0.7, 7));
        assertThat(change.sceneChange()).isLessThan(0.05);
        assertThat(PictureChange.between(before, textured(2, 0, 1, 0)).sceneChange())
                .isGreaterThan(FindingRules.usual().cutShare());
    }

    /** Displaced by 6 pixels as a whole: found, and nothing moves against the rest. */
    @Test
    void aMovementOfTheWholePictureIsNoActivity() {
        SmallPicture before = textured(1, 0, 1, 0);
        PictureChange moved = PictureChange.between(before, textured(1, 6, 1, 0));
        assertThat(moved.sceneChange()).isLessThan(0.1);
        // without taking the movement off, mean brightness of blocks of this texture changes by about 10
        assertThat(moved.activity()).isLessThan(2);
        assertThat(PictureChange.between(before, before)).isEqualTo(PictureChange.NONE);
    }

    private static SmallPicture textured(long seed, int shift, double scale, int offset) {
        Random random = new Random(seed);
        int wide = 200;
        double[] coarse = new double[wide * 120];
        for (int y = 0; y < 120; y += 2) {
            for (int x = 0; x < wide; x += 2) {
                double value = 60 + 120 * random.nextDouble();
                for (int i = 0; i < 4; i++) {
                    coarse[(y + i / 2) * wide + x + i % 2] = value;
                }
            }
        }
        byte[] luma = new byte[160 * 120];
        for (int i = 0; i < luma.length; i++) {
            luma[i] = (byte) Math.round(scale * coarse[i / 160 * wide + i % 160 + shift] + offset);
        }
        byte[] grey = new byte[luma.length];
        Arrays.fill(grey, (byte) 128);
        return new SmallPicture(160, 120, luma, grey, grey);
    }

    private static SmallPicture plain(int y, int cb, int cr) {
        byte[][] planes = new byte[3][16 * 16];
        Arrays.fill(planes[0], (byte) y);
        Arrays.fill(planes[1], (byte) cb);
        Arrays.fill(planes[2], (byte) cr);
        return new SmallPicture(16, 16, planes[0], planes[1], planes[2]);
    }

    private static byte[] bytes(int... values) {
        byte[] bytes = new byte[values.length];
        for (int i = 0; i < values.length; i++) {
            bytes[i] = (byte) values[i];
        }
        return bytes;
    }
}
