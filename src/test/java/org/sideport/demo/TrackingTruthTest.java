package org.sideport.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.sideport.media.FrameSweep;
import org.sideport.media.SmallPicture;
import org.sideport.media.track.EyeEdge;
import org.sideport.media.track.EyeFinder;
import org.sideport.media.track.EyeView;

/** Eye and tip as found, against where the generator drew them: the truth is the program that painted the pictures. */
class TrackingTruthTest {

    /** How a recording differs from the painted picture. */
    private record Spoilt(double noise, double gain, double blue) {}

    private static final Spoilt CLEAN = new Spoilt(0, 1, 0);

    @Test
    void explore() {
        for (EyeScript script : EyeScripts.all()) {
            eye(script, CLEAN);
            eye(script, new Spoilt(8, 0.8, 0));
        }
    }

    @Test
    void exploreTip() throws Exception {
        java.nio.file.Path dir = java.nio.file.Path.of("/tmp/trackdemo");
        if (!java.nio.file.Files.exists(dir.resolve("D-002-truth.json"))) {
            new DemoGenerator().writeRecordings(dir, org.sideport.model.Progress.NONE);
        }
        for (EyeScript script : EyeScripts.all().subList(1, 3)) {
            EyeMotion motion = new EyeMotion(script);
            for (Act act : script.acts()) {
                if (!act.isStep()) continue;
                int n = act.to() - act.from();
                int start = act.from() + n / 2;
                int stop = act.to() - n / 4;
                EyePose p0 = motion.at(start);
                double ox = 0.3 * Math.cos(p0.main().from()), oy = 0.3 * Math.sin(p0.main().from());
                double aspect = script.shape().aspect();
                var at = script.clock().at(start);
                long t0 = System.nanoTime();
                var track = org.sideport.media.track.TipTracker.track(script.files().stream().map(dir::resolve).toList(), new org.sideport.model.MediaTime(at.micros() + 1000),
                    p0.screenX(p0.main().x() + ox) / aspect, p0.screenY(p0.main().y() + oy), script.clock().at(stop), org.sideport.model.Progress.NONE);
                double ms = (System.nanoTime() - t0) / 1e6 / track.points().size();
                List<Double> err = new ArrayList<>();
                double path = 0;
                EyePose last = null;
                for (var p : track.points()) {
                    EyePose pose = motion.at((int) p.frame());
                    err.add(Math.hypot(p.place().x() - pose.screenX(pose.main().x() + ox), p.place().y() - pose.screenY(pose.main().y() + oy)));
                    if (last != null) path += Math.hypot(pose.screenX(pose.main().x()) - last.screenX(last.main().x()), pose.screenY(pose.main().y()) - last.screenY(last.main().y()));
                    last = pose;
                }
                System.out.printf("%s %-18s %-10s %4d of %4d frames, true path %.0f px, err median %.2f p95 %.2f max %.2f, %s, %.0f ms/frame%n", script.code(), act.what(), p0.main().tool(), track.points().size(), stop - start, path, q(err, .5), q(err, .95), q(err, 1), track.lost(), ms);
            }
        }
    }

    private static void eye(EyeScript script, Spoilt spoilt) {
        EyePainter painter = new EyePainter(script);
        EyeMotion motion = new EyeMotion(script);
        List<Double> centre = new ArrayList<>();
        List<Double> diameter = new ArrayList<>();
        List<Double> pupil = new ArrayList<>();
        int missed = 0;
        int n = 0;
        int falsely = 0;
        long ns = 0;
        double aspect = script.shape().aspect();
        for (int frame = 0; frame < script.clock().frames(); frame += 37) {
            String what = script.actAt(frame).what();
            int[] rgb = painter.paint(frame);
            FrameSweep.Scale scale = scale(script, 320);
            SmallPicture small = small(rgb, script, scale, spoilt, frame);
            long t = System.nanoTime();
            EyeView view = EyeFinder.find(small, scale);
            ns += System.nanoTime() - t;
            if (what.equals(Act.TITLE) || what.equals(Act.BLANK)) {
                if (view.limbus() != null) falsely++;
                continue;
            }
            n++;
            EyePose pose = motion.at(frame);
            EyeEdge limbus = view.limbus();
            if (limbus == null) {
                missed++;
                System.out.println(script.code() + " " + frame + " " + what + " " + view.missing());
                continue;
            }
            double r = Anatomy.LIMBUS * pose.scale();
            double e = Math.hypot(limbus.ellipse().centreX() - pose.centreX(), limbus.ellipse().centreY() - pose.centreY());
            centre.add(100 * e / (2 * r));
            diameter.add(100 * (limbus.diameter() / (2 * r) - 1));
            if (e / r > 0.05) System.out.println(script.code() + " " + frame + " " + what + " off " + e / r + " conf " + limbus.confidence());
            if (view.pupil() != null) pupil.add(100 * (view.pupil().diameter() / (2 * Anatomy.PUPIL * pose.scale()) - 1));
        }
        System.out.printf("%s %s n=%d missed=%d false=%d centre %% of diameter median %.2f p95 %.2f; diameter bias %% %.2f..%.2f..%.2f; pupil n %d %.2f..%.2f..%.2f; ms %.1f%n", script.code(), spoilt, n, missed, falsely,
            q(centre, .5), q(centre, .95), q(diameter, .05), q(diameter, .5), q(diameter, .95), pupil.size(), q(pupil, .05), q(pupil, .5), q(pupil, .95), ns / 1e6 / n);
    }

    private static FrameSweep.Scale scale(EyeScript script, int width) {
        int w = script.shape().width();
        int h = script.shape().height();
        return new FrameSweep.Scale(w, h, width, (int) Math.round(width * h / script.shape().displayWidth()));
    }

    /** Means over areas, as the scaler does, with noise and gain. */
    private static SmallPicture small(int[] rgb, EyeScript script, FrameSweep.Scale scale, Spoilt spoilt, long seed) {
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

    private static double q(List<Double> v, double p) {
        if (v.isEmpty()) return Double.NaN;
        double[] s = v.stream().mapToDouble(d -> d).sorted().toArray();
        return s[(int) Math.round(p * (s.length - 1))];
    }
}
