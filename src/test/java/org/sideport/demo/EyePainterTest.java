package org.sideport.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class EyePainterTest {

    static List<EyeScript> scripts() {
        return EyeScripts.all();
    }

    /** The bright edge of the opening is looked for in the painted picture, along rays from its stated centre. */
    @ParameterizedTest
    @MethodSource("scripts")
    void theRhexisInThePictureHasTheDiameterThatTheTruthStates(EyeScript script) {
        Map<?, ?> still = (Map<?, ?>) new TruthWriter().details(script).get("rhexis_still");
        int[] picture = new EyePainter(script).paint((Integer) still.get("frame"));
        double centreX = (Double) still.get("centre_x");
        double centreY = (Double) still.get("centre_y");
        double perPxX = (Double) still.get("mm_per_px_x");
        double perPxY = (Double) still.get("mm_per_px_y");
        int rays = 72;
        double[] radii = new double[rays];
        for (int i = 0; i < rays; i++) {
            double angle = 2 * Math.PI * i / rays;
            double brightest = -1;
            for (double mm = 2.0; mm < 3.3; mm += 0.01) {
                int x = (int) Math.floor(centreX + mm * Math.cos(angle) / perPxX);
                int y = (int) Math.floor(centreY + mm * Math.sin(angle) / perPxY);
                // blue stands out: the edge is whitish, and all around it is orange or red
                int blue = picture[y * script.shape().width() + x] & 0xFF;
                if (blue > brightest) {
                    brightest = blue;
                    radii[i] = mm;
                }
            }
        }
        Arrays.sort(radii);
        assertThat(2 * radii[rays / 2]).isCloseTo(script.look().rhexisMm(), within(0.08));
    }

    @ParameterizedTest
    @MethodSource("scripts")
    void theLimbusHasTheWidthThatThePixelScaleMakesOfIt(EyeScript script) {
        Map<?, ?> still = (Map<?, ?>) new TruthWriter().details(script).get("rhexis_still");
        int[] picture = new EyePainter(script).paint((Integer) still.get("frame"));
        int row = (int) Math.round((Double) still.get("limbus_y"));
        int centre = (int) Math.round((Double) still.get("limbus_x"));
        double radius = 5.9 / (Double) still.get("mm_per_px_x");
        // bright sclera well outside, darker iris well inside
        for (int side : new int[] {-1, 1}) {
            double outside = meanLuma(picture, script.shape().width(), row, centre + side * (int) (radius * 1.10));
            double inside = meanLuma(picture, script.shape().width(), row, centre + side * (int) (radius * 0.88));
            assertThat(outside).isGreaterThan(inside + 20);
        }
    }

    private static double meanLuma(int[] picture, int width, int row, int column) {
        double sum = 0;
        for (int y = row - 6; y <= row + 6; y++) {
            for (int x = column - 4; x <= column + 4; x++) {
                int p = picture[y * width + x];
                sum += 0.299 * (p >> 16 & 0xFF) + 0.587 * (p >> 8 & 0xFF) + 0.114 * (p & 0xFF);
            }
        }
        return sum / (13 * 9);
    }
}
