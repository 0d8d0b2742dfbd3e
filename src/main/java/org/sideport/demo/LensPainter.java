package org.sideport.demo;

import static org.sideport.demo.Anatomy.MAIN;
import static org.sideport.demo.Anatomy.NUCLEUS;
import static org.sideport.demo.Anatomy.polar;
import static org.sideport.demo.Noise.mix;
import static org.sideport.demo.Noise.ramp;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RadialGradientPaint;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Arc2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.awt.image.BufferedImage;

/** The natural lens behind the pupil, from whole to gone: nucleus, grooves, pieces, cortex. Works in mm. */
final class LensPainter {

    static final int STRANDS = 11;

    private final EyeScript script;
    private final BufferedImage nucleus;
    private final Noise noise;

    LensPainter(EyeScript script, BufferedImage nucleus) {
        this.script = script;
        this.nucleus = nucleus;
        this.noise = new Noise(script.look().seed() + 1);
    }

    /** Strands are taken by turns on either side, the ones under the main incision last. */
    static double strandAngle(int strand) {
        double step = 2 * Math.PI / STRANDS;
        int side = strand % 2 == 0 ? 1 : -1;
        return MAIN + Math.PI + side * Math.floorDiv(strand + 1, 2) * step;
    }

    /** @param g in mm from the limbus centre, clipped to the pupil */
    void paint(Graphics2D g, int frame) {
        double groove = script.done("sculpting", frame);
        double split = script.done("division", frame);
        double taken = script.done("fragment_removal", frame);
        cortex(g, frame);
        if (taken < 1) {
            double turn = rotation(frame);
            for (int piece = 0; piece < 4; piece++) {
                piece(g, piece, turn, split, taken * 4 - piece);
            }
            if (split < 0.95 && groove > 0) {
                groove(g, turn + MAIN, ramp(groove, 0, 0.5), 1 - ramp(split, 0.3, 0.9));
                groove(g, turn + MAIN + Math.PI / 2, ramp(groove, 0.5, 1), 1 - ramp(split, 0.3, 0.9));
            }
        }
        specks(g, frame);
        wave(g, frame);
    }

    /** The nucleus turns when it is loosened, and a quarter between the two grooves. */
    private double rotation(int frame) {
        double loosened = 0.7 * ramp(script.done("hydrodissection", frame), 0.62, 1);
        return loosened + Math.PI / 2 * ramp(script.done("sculpting", frame), 0.45, 0.58) - 0.7;
    }

    private void piece(Graphics2D g, int piece, double turn, double split, double taken) {
        if (taken >= 1) {
            return;
        }
        double middle = turn + MAIN + Math.PI * (0.25 + piece * 0.5);
        double gap = 0.34 * ramp(split, 0.2, 1);
        double pulled = ramp(taken, 0, 0.35);
        double size = 1 - ramp(taken, 0.35, 1);
        if (size < 0.06) {
            return;
        }
        Point2D.Double apart = polar(gap, middle);
        Point2D.Double centroid = polar(1.9, middle);
        AffineTransform old = g.getTransform();
        Shape clip = g.getClip();
        g.translate(mix(apart.x, 0.25 - centroid.x * size, pulled), mix(apart.y, 0.3 - centroid.y * size, pulled));
        g.scale(size, size);
        g.rotate(taken > 0.35 ? (taken - 0.35) * 3.5 : 0);
        Arc2D.Double wedge = new Arc2D.Double(
                -NUCLEUS, -NUCLEUS, 2 * NUCLEUS, 2 * NUCLEUS, -Math.toDegrees(middle) - 45, 90, Arc2D.PIE);
        if (split > 0) {
            g.clip(wedge);
            g.setColor(new Color(236, 176, 96, (int) (60 * ramp(split, 0, 1))));
            g.fill(wedge);
        } else {
            g.clip(wedge);
        }
        AffineTransform image = AffineTransform.getRotateInstance(turn);
        image.translate(-NUCLEUS, -NUCLEUS);
        image.scale(1 / EyeTexture.SCALE, 1 / EyeTexture.SCALE);
        g.drawImage(nucleus, image, null);
        g.setClip(null);
        g.setTransform(old);
        g.setClip(clip);
        if (split > 0.2) {
            outline(
                    g,
                    wedge,
                    size,
                    mix(apart.x, 0.25 - centroid.x * size, pulled),
                    mix(apart.y, 0.3 - centroid.y * size, pulled),
                    taken);
        }
    }

    private static void outline(Graphics2D g, Shape wedge, double size, double x, double y, double taken) {
        AffineTransform move = AffineTransform.getTranslateInstance(x, y);
        move.scale(size, size);
        move.rotate(taken > 0.35 ? (taken - 0.35) * 3.5 : 0);
        g.setStroke(new BasicStroke(0.09f));
        g.setColor(new Color(255, 226, 168, 120));
        g.draw(move.createTransformedShape(wedge));
    }

    /** The reflex shines through where the nucleus is thin. */
    private static void groove(Graphics2D g, double angle, double depth, double strength) {
        if (depth <= 0.02 || strength <= 0) {
            return;
        }
        double half = mix(1.2, 2.7, depth);
        AffineTransform old = g.getTransform();
        g.rotate(angle);
        for (int layer = 0; layer < 3; layer++) {
            double width = mix(0.5, 1.25, depth) * (1 - layer * 0.26);
            Path2D.Double trough = new Path2D.Double();
            trough.moveTo(-half, 0);
            trough.curveTo(-half, -width / 2, -half * 0.4, -width / 2, half, -width / 2 * 0.9);
            trough.curveTo(half * 1.1, -width / 4, half * 1.1, width / 4, half, width / 2 * 0.9);
            trough.curveTo(-half * 0.4, width / 2, -half, width / 2, -half, 0);
            g.setColor(new Color[] {
                        new Color(110, 40, 14, (int) (120 * strength)),
                        new Color(205, 84, 36, (int) (120 * strength * depth)),
                        new Color(255, 142, 66, (int) (165 * strength * depth))
                    }
                    [layer]);
            g.fill(trough);
        }
        g.setTransform(old);
    }

    private void cortex(Graphics2D g, int frame) {
        double taken = script.done("cortex_aspiration", frame);
        double seen = 0.25 + 0.75 * ramp(script.done("fragment_removal", frame), 0.2, 0.9);
        if (taken >= 1) {
            return;
        }
        for (int strand = 0; strand < STRANDS; strand++) {
            double gone = taken * STRANDS - strand;
            if (gone < 0.95) {
                strand(g, strand, Math.max(0, gone), seen);
            }
        }
    }

    private void strand(Graphics2D g, int strand, double gone, double seen) {
        double angle = strandAngle(strand);
        double pulled = ramp(gone, 0.42, 0.95);
        double spread = Math.PI / STRANDS * 1.02 * (1 - 0.75 * pulled);
        double outer = mix(4.1, 1.4, pulled);
        double inner = mix(2.1 + 0.3 * noise.at(strand * 3.3, 1.5), 0.4, pulled);
        for (int layer = 0; layer < 3; layer++) {
            double inward = inner + layer * 0.45;
            Path2D.Double shape = new Path2D.Double();
            shape.moveTo(polar(outer, angle - spread).x, polar(outer, angle - spread).y);
            for (int k = 0; k <= 16; k++) {
                double share = k / 16.0;
                double ragged = 0.45 * noise.at(strand * 9 + share * 3.2, layer * 4.5);
                Point2D.Double p = polar(inward + ragged, angle - spread + 2 * spread * share);
                shape.lineTo(p.x, p.y);
            }
            shape.lineTo(polar(outer, angle + spread).x, polar(outer, angle + spread).y);
            shape.closePath();
            g.setColor(new Color(252, 226, 186, (int) ((34 + 16 * layer) * seen * (1 - 0.5 * pulled))));
            g.fill(shape);
        }
    }

    /** What polishing takes off the capsule. */
    private void specks(Graphics2D g, int frame) {
        double clean = script.hasStep("capsule_polishing")
                ? script.done("capsule_polishing", frame)
                : script.done("ovd_removal", frame);
        double seen = ramp(script.done("cortex_aspiration", frame), 0.6, 1);
        for (int i = 0; i < 26; i++) {
            if (i / 26.0 < clean || seen <= 0) {
                continue;
            }
            double x = 3.0 * noise.at(i * 1.7, 20.5);
            double y = 3.0 * noise.at(i * 2.3, 40.5);
            double size = 0.09 + 0.09 * Math.abs(noise.at(i * 5.1, 9.5));
            g.setColor(new Color(255, 232, 200, (int) (100 * seen)));
            g.fill(new Ellipse2D.Double(x, y, size * 2, size));
        }
    }

    /** The front of the fluid crosses behind the nucleus while it is loosened. */
    private void wave(Graphics2D g, int frame) {
        double done = script.done("hydrodissection", frame);
        if (done < 0.2 || done > 0.62) {
            return;
        }
        Point2D.Double from = polar(3.4, MAIN - 1.9);
        float radius = (float) mix(0.5, 8.0, ramp(done, 0.2, 0.6));
        g.setPaint(new RadialGradientPaint(from, radius, new float[] {0f, 0.82f, 0.95f, 1f}, new Color[] {
            new Color(255, 170, 90, 50), new Color(255, 170, 90, 30), new Color(80, 20, 8, 120), new Color(80, 20, 8, 0)
        }));
        g.fill(new Ellipse2D.Double(-NUCLEUS, -NUCLEUS, 2 * NUCLEUS, 2 * NUCLEUS));
    }
}
