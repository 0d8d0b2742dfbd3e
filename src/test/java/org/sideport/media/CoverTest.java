package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;

/** Areas are given in square pixels of the whole upright picture (class comment of {@link MaskArea}). */
class CoverTest {

    private static FramePicture white(int width, int height, double aspect) {
        byte[] bgra = new byte[width * height * 4];
        Arrays.fill(bgra, (byte) 255);
        return new FramePicture(width, height, aspect, bgra);
    }

    /** The picture in letters: # is black, . is white, row by row. */
    private static String[] letters(FramePicture picture) {
        String[] rows = new String[picture.height()];
        for (int y = 0; y < rows.length; y++) {
            StringBuilder row = new StringBuilder();
            for (int x = 0; x < picture.width(); x++) {
                int at = (y * picture.width() + x) * 4;
                assertThat(picture.bgra()[at + 3]).isEqualTo((byte) 255);
                row.append(picture.bgra()[at] == 0 ? '#' : '.');
            }
            rows[y] = row.toString();
        }
        return rows;
    }

    private static String[] covered(FramePicture picture, int height, MaskArea... areas) {
        return letters(new Cover(List.of(areas)).over(picture, height, MediaTime.ZERO));
    }

    @Test
    void anAreaIsBlackAndNothingElseIs() {
        assertThat(covered(white(6, 4, 1.5), 4, new MaskArea(1, 1, 3, 2)))
                .containsExactly("......", ".###..", ".###..", "......");
    }

    @Test
    void ofASmallerPictureEachPixelIsBlackOfWhichAPartIsCovered() {
        assertThat(covered(white(6, 4, 1.5), 8, new MaskArea(3, 3, 4, 2)))
                .containsExactly("......", ".###..", ".###..", "......");
    }

    @Test
    void pixelsThatAreNotSquareAreCoveredWhereTheyAreSeen() {
        // seen 12 wide: a pixel of the file is two wide
        assertThat(covered(white(6, 4, 3), 4, new MaskArea(4, 0, 5, 1)))
                .containsExactly("..###.", "......", "......", "......");
    }

    @Test
    void whatLiesBesideThePictureIsLeftOut() {
        assertThat(covered(white(3, 2, 1.5), 2, new MaskArea(2, 1, 9, 9), new MaskArea(7, 7, 2, 2)))
                .containsExactly("...", "..#");
    }

    @Test
    void onlyForItsTimeAndThePictureGivenStaysAsItIs() {
        FramePicture picture = white(2, 1, 2);
        Cover cover = new Cover(List.of(new MaskArea(0, 0, 1, 1, MediaTime.ofSeconds(5), MediaTime.ofSeconds(7))));
        assertThat(cover.over(picture, 1, MediaTime.ofMicros(4_999_999))).isSameAs(picture);
        assertThat(letters(cover.over(picture, 1, MediaTime.ofSeconds(5)))).containsExactly("#.");
        assertThat(cover.over(picture, 1, MediaTime.ofSeconds(7))).isSameAs(picture);
        assertThat(letters(picture)).containsExactly("..");
    }
}
