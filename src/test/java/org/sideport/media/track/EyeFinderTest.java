package org.sideport.media.track;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.sideport.media.FrameSweep;
import org.sideport.media.SmallPicture;
import org.sideport.media.track.EyeView.Missing;

/** Against eyes drawn by a formula: an elliptic limbus in bright sclera, a dark pupil, noise, and what stands in the way. */
class EyeFinderTest {

    private static final int WIDTH = 320;
    private static final int HEIGHT = 180;
    private static final FrameSweep.Scale SCALE = new FrameSweep.Scale(1280, 720, WIDTH, HEIGHT);

    /** All in pixels of the small picture. */
    private record Drawn(double x, double y, double a, double b, double blur, double noise, double gain) {

        double level(double px, double py) {
            double limbus = (Math.hypot((px - x) / a, (py - y) / b) - 1) * Math.sqrt(a * b);
            double pupil = Math.hypot(px - x, py - y) - 0.4 * a;
            double outside = 1 / (1 + Math.exp(-limbus / blur));
            double inPupil = 1 / (1 + Math.exp(pupil / blur));
            double iris = 90 + 8 * Math.exp(-blur / 8) * Math.sin(9 * Math.atan2(py - y, px - x));
            return (1 - inPupil) * ((1 - outside) * iris + outside * 190) + inPupil * 35;
        }

        SmallPicture picture(long seed) {
            Random random = new Random(seed);
            byte[] luma = new byte[WIDTH * HEIGHT];
            for (int i = 0; i < luma.length; i++) {
                double v = gain * level(i % WIDTH, i / WIDTH) + noise * random.nextGaussian();
                luma[i] = (byte) Math.max(0, Math.min(255, Math.round(v)));
            }
            byte[] grey = new byte[luma.length];
            Arrays.fill(grey, (byte) 128);
            return new SmallPicture(WIDTH, HEIGHT, luma, grey, grey);
        }
    }

    @Test
    void centreAndDiameterAreFoundWhereverTheEyeLies() {
        Random random = new Random(42);
        List<Double> centres = new ArrayList<>();
        List<Double> diameters = new ArrayList<>();
        for (int k = 0; k < 40; k++) {
            double a = 38 + 40 * random.nextDouble();
            double b = a * (0.92 + 0.08 * random.nextDouble());
            Drawn eye = new Drawn(
                    110 + 100 * random.nextDouble(),
                    80 + 20 * random.nextDouble(),
                    a,
                    b,
                    1 + 2 * random.nextDouble(),
                    8 * random.nextDouble(),
                    0.6 + 0.6 * random.nextDouble());
            EyeView view = EyeFinder.find(eye.picture(k), SCALE);
            EyeEdge limbus = view.limbus();
            assertThat(limbus).as("%s %s", eye, view).isNotNull();
            double truth = 4 * 2 * Math.sqrt(eye.a() * eye.b());
            // a pixel of the small picture is four of the recording, and its middle half of that from its corner
            centres.add(Math.hypot(
                            limbus.ellipse().centreX() - 4 * (eye.x() + 0.5),
                            limbus.ellipse().centreY() - 4 * (eye.y() + 0.5))
                    / truth);
            diameters.add(Math.abs(limbus.diameter() / truth - 1));
            EyeEdge pupil = Objects.requireNonNull(view.pupil(), () -> "no pupil in " + eye);
            assertThat(pupil.diameter()).isCloseTo(4 * 0.8 * eye.a(), within(0.08 * 4 * 0.8 * eye.a()));
        }
        assertThat(quantile(centres, 0.5)).as("median centre").isLessThan(0.003);
        assertThat(quantile(centres, 0.95)).as("95th percentile centre").isLessThan(0.01);
        assertThat(quantile(diameters, 0.5)).as("median diameter").isLessThan(0.005);
        assertThat(quantile(diameters, 0.95)).as("95th percentile diameter").isLessThan(0.015);
    }

    @Test
    void whatHidesAThirdOfTheEdgeDoesNotMoveIt() {
        Drawn eye = new Drawn(160, 90, 60, 60, 1.5, 4, 1);
        SmallPicture picture = eye.picture(1);
        byte[] luma = picture.luma().clone();
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 190; x < WIDTH; x++) {
                luma[y * WIDTH + x] = (byte) 150;
            }
        }
        EyeEdge limbus = EyeFinder.find(new SmallPicture(WIDTH, HEIGHT, luma, picture.cb(), picture.cr()), SCALE)
                .limbus();
        assertThat(limbus).isNotNull();
        assertThat(limbus.ellipse().centreX()).isCloseTo(4 * 160.5, within(6.0));
        assertThat(limbus.ellipse().centreY()).isCloseTo(4 * 90.5, within(6.0));
        assertThat(limbus.confidence()).isLessThan(0.75);
    }

    @Test
    void withoutAnEyeItSaysSoAndWhy() {
        assertThat(EyeFinder.find(new Drawn(160, 90, 60, 60, 1.5, 2, 0.08).picture(1), SCALE)
                        .missing())
                .isEqualTo(Missing.DARK);
        assertThat(EyeFinder.find(new Drawn(160, 90, 60, 60, 40, 1, 0.9).picture(1), SCALE)
                        .missing())
                .isEqualTo(Missing.OUT_OF_FOCUS);
        // noise, stripes and an eye so near that its limbus is all outside the picture
        for (int seed = 0; seed < 10; seed++) {
            EyeView noise = EyeFinder.find(new Drawn(-900, 90, 20, 20, 1, 40, 0.6).picture(seed), SCALE);
            assertThat(noise.limbus()).as("noise " + seed).isNull();
        }
        EyeView near = EyeFinder.find(new Drawn(160, 90, 400, 400, 1.5, 4, 1).picture(1), SCALE);
        assertThat(near.limbus() == null || near.limbus().confidence() < 1)
                .as(near.toString())
                .isTrue();
    }

    @Test
    void aChangeOfZoomIsFoundAndItsTimeKnown() {
        List<EyeSample> samples = new ArrayList<>();
        for (int k = 0; k < 20; k++) {
            double a = k < 12 ? 45 : 60;
            Drawn eye = new Drawn(160 + 20 * (k % 2), 90, a, a, 1.5, 5, 1);
            samples.add(new EyeSample(k * 1_000_000L, EyeFinder.find(eye.picture(k), SCALE)));
        }
        EyeSummary summary = EyeSummary.of(new EyeTrack(SCALE, 20_000_000, samples), 0.05);
        assertThat(summary.found()).isEqualTo(20);
        assertThat(summary.zoomChanges()).singleElement().satisfies(change -> {
            assertThat(change.timeUs()).isEqualTo(12_000_000);
            assertThat(change.ratio()).isCloseTo(60 / 45.0, within(0.02));
        });
        // every second time it lies 20 of the 180 pixels of the shorter side off the middle, else in it
        assertThat(summary.centredShare()).isCloseTo(0.5, within(1e-9));
    }

    private static double quantile(List<Double> values, double p) {
        double[] sorted = values.stream().mapToDouble(d -> d).sorted().toArray();
        return sorted[(int) Math.ceil(p * sorted.length) - 1];
    }
}
