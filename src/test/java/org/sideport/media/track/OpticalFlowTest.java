package org.sideport.media.track;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.sideport.stats.geometry.Point;

class OpticalFlowTest {

    private static final int WIDTH = 200;
    private static final int HEIGHT = 160;

    /** The scene of src/test/oracle/track/flow.py, by the same formula. */
    private static GrayPicture picture(double dx, double dy, double scale, double turn) {
        float[] values = new float[WIDTH * HEIGHT];
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                double u = x - WIDTH / 2.0 - dx;
                double v = y - HEIGHT / 2.0 - dy;
                double c = Math.cos(turn);
                double s = Math.sin(turn);
                double sx = (c * u + s * v) / scale + WIDTH / 2.0;
                double sy = (-s * u + c * v) / scale + HEIGHT / 2.0;
                values[y * WIDTH + x] = (float) Math.rint(120
                        + 40 * Math.sin(0.21 * sx + 0.13 * sy)
                        + 35 * Math.sin(0.09 * sx - 0.27 * sy + 1)
                        + 25 * Math.cos(0.05 * sx * 1.7 + 0.11 * sy + 2));
            }
        }
        return new GrayPicture(WIDTH, HEIGHT, values);
    }

    /** flow.csv is what OpenCV 4.14.0 found, written by src/test/oracle/track/flow.py. */
    @Test
    void agreesWithTheReferenceImplementationToATwentiethOfAPixel() throws IOException {
        OpticalFlow first = OpticalFlow.of(picture(0, 0, 1, 0), 3);
        List<Double> differences = new ArrayList<>();
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(
                Objects.requireNonNull(OpticalFlowTest.class.getResourceAsStream("flow.csv")),
                StandardCharsets.UTF_8))) {
            lines.readLine();
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                double[] v = Arrays.stream(line.split(","))
                        .mapToDouble(Double::parseDouble)
                        .toArray();
                OpticalFlow next = OpticalFlow.of(picture(v[0], v[1], v[2], v[3]), 3);
                Point there = Objects.requireNonNull(first.follow(next, v[4], v[5]));
                differences.add(Math.hypot(there.x() - v[4] - v[6], there.y() - v[5] - v[7]));
            }
        }
        double[] sorted = differences.stream().mapToDouble(d -> d).sorted().toArray();
        assertThat(sorted).hasSize(140);
        assertThat(sorted[70]).as("median").isLessThan(0.01);
        assertThat(sorted[133]).as("95th percentile").isLessThan(0.05);
    }

    @Test
    void aShiftIsFoundToASmallPartOfAPixelAndBackAgain() {
        double[][] shifts = {{0.37, -0.61}, {3.4, 2.2}, {-9.5, 6.25}};
        OpticalFlow first = OpticalFlow.of(picture(0, 0, 1, 0), 3);
        for (double[] shift : shifts) {
            OpticalFlow next = OpticalFlow.of(picture(shift[0], shift[1], 1, 0), 3);
            Point there = Objects.requireNonNull(first.follow(next, 90.3, 75.8));
            assertThat(Math.hypot(there.x() - 90.3 - shift[0], there.y() - 75.8 - shift[1]))
                    .isLessThan(0.03);
            assertThat(first.backwardError(next, 90.3, 75.8, there)).isLessThan(0.05);
        }
    }

    @Test
    void anEvenPatchGoesNowhere() {
        float[] even = new float[WIDTH * HEIGHT];
        Arrays.fill(even, 90);
        OpticalFlow flow = OpticalFlow.of(new GrayPicture(WIDTH, HEIGHT, even), 3);
        assertThat(flow.follow(flow, 100, 80)).isNull();
    }
}
