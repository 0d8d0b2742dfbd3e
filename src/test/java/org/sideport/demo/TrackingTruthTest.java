package org.sideport.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.FrameSweep;
import org.sideport.media.SmallPicture;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.media.track.EyeEdge;
import org.sideport.media.track.EyeFinder;
import org.sideport.media.track.MotionSettings;
import org.sideport.media.track.TipMeasures;
import org.sideport.media.track.TipPoint;
import org.sideport.media.track.TipTrack;
import org.sideport.media.track.TipTracker;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.stats.geometry.Point;

/** Eye and tip as found, against where the generator drew them: the truth is the program that painted the pictures. */
class TrackingTruthTest {

    /** How a recording differs from the painted picture. */
    private record Spoilt(double noise, double gain) {}

    private static final Spoilt CLEAN = new Spoilt(0, 1);

    private static final Spoilt POOR = new Spoilt(8, 0.8);

    /** Errors in shares of the limbus diameter. The painted limbus is a soft band, whose outer side is called its radius. */
    @Test
    void theLimbusIsFoundInEveryRecordingWithNoiseAndWithout() {
        for (EyeScript script : EyeScripts.all()) {
            List<Double> centres = new ArrayList<>();
            List<Double> diameters = new ArrayList<>();
            EyePainter painter = new EyePainter(script);
            EyeMotion motion = new EyeMotion(script);
            FrameSweep.Scale scale = scale(script);
            int moments = 0;
            for (int frame = 0; frame < script.clock().frames(); frame += 331) {
                String what = script.actAt(frame).what();
                int[] picture = painter.paint(frame);
                for (Spoilt spoilt : List.of(CLEAN, POOR)) {
                    EyeEdge limbus = EyeFinder.find(small(picture, scale, spoilt, frame), scale)
                            .limbus();
                    if (what.equals(Act.TITLE) || what.equals(Act.BLANK)) {
                        assertThat(limbus).as("%s frame %d", what, frame).isNull();
                        continue;
                    }
                    moments++;
                    assertThat(limbus)
                            .as("%s frame %d %s", script.code(), frame, spoilt)
                            .isNotNull();
                    EyePose pose = motion.at(frame);
                    double truth = 2 * Anatomy.LIMBUS * pose.scale();
                    centres.add(Math.hypot(
                                    limbus.ellipse().centreX() - pose.centreX(),
                                    limbus.ellipse().centreY() - pose.centreY())
                            / truth);
                    diameters.add(limbus.diameter() / truth);
                }
            }
            assertThat(moments).isGreaterThan(8);
            assertThat(quantile(centres, 0.5)).as("median centre").isLessThan(0.002);
            assertThat(quantile(centres, 0.95)).as("95th percentile centre").isLessThan(0.004);
            assertThat(quantile(diameters, 0.05)).as("5th percentile diameter").isGreaterThan(0.98);
            assertThat(quantile(diameters, 0.95)).as("95th percentile diameter").isLessThan(1.0);
        }
    }

    /**
     * Four pixels are a hundredth of the limbus diameter. Pointed at 0.3 mm from the tip towards the handle, on the metal, halfway through the step.
     */
    @Test
    void tipsOfInstrumentsAreFollowedThroughTheSteps(@TempDir Path folder) throws IOException {
        EyeScript script = EyeScripts.second();
        EyeMotion motion = new EyeMotion(script);
        List<Double> errors = new ArrayList<>();
        for (String step : List.of("ovd_chamber", "main_incision", "sculpting", "lens_positioning")) {
            Act act = script.acts().stream()
                    .filter(a -> a.what().equals(step))
                    .findFirst()
                    .orElseThrow();
            int from = (act.from() + act.to()) / 2;
            int to = from + 16;
            Path file = write(script, from, to, folder.resolve(step + ".mp4"));
            Point first = metal(motion.at(from));
            TipTrack track = TipTracker.track(
                    List.of(file), MediaTime.ZERO, first.x(), first.y(), MediaTime.ofSeconds(60), Progress.NONE);
            assertThat(track.lost()).as(step).isNull();
            assertThat(track.points()).as(step).hasSize(to - from);
            assertThat(track.eyeShare()).as(step).isEqualTo(1);
            double path = 0;
            Point last = first;
            for (TipPoint point : track.points()) {
                Point truth = metal(motion.at(from + (int) point.frame()));
                errors.add(point.place().distance(truth));
                path += truth.distance(last);
                last = truth;
            }
            TipMeasures measures = TipMeasures.of(track, new MotionSettings(0.2, 20, 0.1, 0.1));
            assertThat(measures.inPicture()).isNotNull();
            assertThat(measures.inPicture().pathLength()).as(step).isCloseTo(path, within(3 + 0.08 * path));
        }
        assertThat(quantile(errors, 0.5)).as("median, pixels").isLessThan(0.5);
        assertThat(quantile(errors, 0.95)).as("95th percentile, pixels").isLessThan(4.0);
    }

    private static Point metal(EyePose pose) {
        EyePose.Held held = Objects.requireNonNull(pose.main());
        return new Point(
                pose.screenX(held.x() + 0.3 * Math.cos(held.from())),
                pose.screenY(held.y() + 0.3 * Math.sin(held.from())));
    }

    private static Path write(EyeScript script, int from, int to, Path file) throws IOException {
        EyePainter painter = new EyePainter(script);
        EyeScript.PictureShape shape = script.shape();
        try (VideoWriter writer =
                VideoWriter.open(file, VideoOptions.silent(shape.width(), shape.height(), 1000, 40, 25))) {
            for (int frame = from; frame < to; frame++) {
                writer.frame(painter.paint(frame), (frame - from) * 40L);
            }
            writer.finish();
        }
        return file;
    }

    private static FrameSweep.Scale scale(EyeScript script) {
        int width = 320;
        int w = script.shape().width();
        int h = script.shape().height();
        return new FrameSweep.Scale(
                w, h, width, (int) Math.round(width * h / script.shape().displayWidth()));
    }

    /** Means over areas, as the scaler does, with noise and gain. */
    private static SmallPicture small(int[] rgb, FrameSweep.Scale scale, Spoilt spoilt, long seed) {
        int w = scale.smallWidth();
        int h = scale.smallHeight();
        double[] sum = new double[w * h];
        int[] count = new int[w * h];
        Random random = new Random(seed);
        for (int y = 0; y < scale.height(); y++) {
            for (int x = 0; x < scale.width(); x++) {
                int p = rgb[y * scale.width() + x];
                int at = Math.min(h - 1, y * h / scale.height()) * w + Math.min(w - 1, x * w / scale.width());
                sum[at] += 16 + (0.299 * (p >> 16 & 255) + 0.587 * (p >> 8 & 255) + 0.114 * (p & 255)) * 219 / 255;
                count[at]++;
            }
        }
        byte[] luma = new byte[w * h];
        for (int i = 0; i < luma.length; i++) {
            double v = sum[i] / count[i] * spoilt.gain() + spoilt.noise() * random.nextGaussian();
            luma[i] = (byte) Math.max(0, Math.min(255, Math.round(v)));
        }
        byte[] grey = new byte[w * h];
        Arrays.fill(grey, (byte) 128);
        return new SmallPicture(w, h, luma, grey, grey);
    }

    private static double quantile(List<Double> values, double p) {
        double[] sorted = values.stream().mapToDouble(d -> d).sorted().toArray();
        return sorted[(int) Math.max(0, Math.ceil(p * sorted.length) - 1)];
    }
}
