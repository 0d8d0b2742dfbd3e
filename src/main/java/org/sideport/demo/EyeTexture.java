package org.sideport.demo;

import static org.sideport.demo.Noise.mix;
import static org.sideport.demo.Noise.ramp;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.util.Random;

/** The pictures that never change, drawn once: the eye with its surroundings, and the nucleus. */
final class EyeTexture {

    /** Pixels per mm. */
    static final double SCALE = 36;

    /** Half width and half height of the surroundings, mm. */
    static final double HALF_WIDTH = 13;

    static final double HALF_HEIGHT = 10.5;

    private final Noise noise;
    private final double irisHue;
    private final long seed;

    EyeTexture(EyeScript.EyeLook look) {
        noise = new Noise(look.seed());
        irisHue = look.irisHue();
        seed = look.seed();
    }

    /** Opaque; the limbus centre is in its middle. */
    BufferedImage eye() {
        int width = (int) (2 * HALF_WIDTH * SCALE);
        int height = (int) (2 * HALF_HEIGHT * SCALE);
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        int[] row = new int[width];
        for (int py = 0; py < height; py++) {
            double y = (py + 0.5) / SCALE - HALF_HEIGHT;
            for (int px = 0; px < width; px++) {
                row[px] = colour((px + 0.5) / SCALE - HALF_WIDTH, y).rgb();
            }
            image.setRGB(0, py, width, 1, row, 0, width);
        }
        vessels(image);
        return image;
    }

    private Tint colour(double x, double y) {
        double r = Math.hypot(x, y);
        if (r > 6.6) {
            return outside(x, y);
        }
        Tint eye = r < Anatomy.PUPIL ? reflex(x, y, r) : iris(x, y, r);
        double limbus = ramp(r + 0.12 * noise.at(x * 1.3, y * 1.3), 5.35, 6.25);
        return eye.mixed(outside(x, y), limbus);
    }

    /** Light thrown back by the retina: orange in the middle, deep red at the edge. */
    private Tint reflex(double x, double y, double r) {
        double shade = ramp(Math.hypot(x + 0.5, y + 0.4), 0.2, 4.3) + 0.10 * noise.fractal(x * 0.9, y * 0.9, 3);
        Tint glow = new Tint(246, 138, 66).mixed(new Tint(178, 52, 26), shade);
        return glow.mixed(new Tint(60, 22, 16), ramp(r, Anatomy.PUPIL - 0.28, Anatomy.PUPIL));
    }

    private Tint iris(double x, double y, double r) {
        double angle = Math.atan2(y, x);
        double depth = (r - Anatomy.PUPIL) / (Anatomy.LIMBUS - Anatomy.PUPIL);
        // two copies of the pattern, blended, so that it closes at the back without a seam
        double share = (angle + Math.PI) / (2 * Math.PI);
        double fibres = mix(
                noise.fractal(angle * 26, depth * 2.2, 3),
                noise.fractal((angle - 2 * Math.PI) * 26, depth * 2.2, 3),
                share);
        double crypts = noise.fractal(x * 1.6 + 40, y * 1.6, 2);
        Color base = Color.getHSBColor((float) irisHue, 0.36f, 0.60f);
        double light = 0.92 + 0.62 * fibres + 0.22 * crypts + 0.22 * (1 - ramp(depth, 0, 0.35));
        Tint iris = new Tint(base.getRed(), base.getGreen(), base.getBlue()).lit(light);
        Tint ruff = new Tint(46, 26, 18);
        iris = ruff.mixed(iris, ramp(r + 0.05 * noise.at(angle * 18, 3), Anatomy.PUPIL, Anatomy.PUPIL + 0.22));
        return iris.mixed(new Tint(52, 58, 66), 0.75 * ramp(r, 5.0, 5.75));
    }

    private Tint outside(double x, double y) {
        double wobble = 0.25 * noise.at(x * 0.5, y * 0.5);
        double opening = Math.hypot(x / 10.4, y / (7.3 + wobble));
        double mottle = noise.fractal(x * 0.55 + 9, y * 0.55, 4);
        Tint sclera = new Tint(236, 219, 207).mixed(new Tint(222, 158, 146), 0.32 + 0.55 * mottle);
        sclera = sclera.lit(1.04 - 0.30 * ramp(opening, 0.72, 1.0) + 0.03 * noise.fractal(x * 4, y * 4, 2));
        Tint lid = new Tint(198, 138, 122).lit(0.95 + 0.25 * noise.fractal(x * 2, y * 2, 3));
        double folds = noise.fractal(x * 0.35 - 20, y * 0.8 + x * 0.2, 3);
        Tint drape = new Tint(52, 118, 138).lit(0.86 + 0.5 * folds - 0.05 * Math.max(0, opening - 1.2));
        Tint edge = sclera.mixed(lid, ramp(opening, 0.965, 1.0)).mixed(new Tint(96, 58, 52), seam(opening, 1.0, 0.02));
        return edge.mixed(drape, ramp(opening + 0.02 * folds, 1.07, 1.09)).lit(1 - 0.35 * seam(opening, 1.10, 0.05));
    }

    private static double seam(double x, double at, double width) {
        double distance = (x - at) / width;
        return Math.exp(-distance * distance);
    }

    /** Conjunctival vessels wander outwards from near the limbus; the wires of the speculum hold the lids. */
    private void vessels(BufferedImage image) {
        Graphics2D g = image.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.translate(image.getWidth() / 2.0, image.getHeight() / 2.0);
        g.scale(SCALE, SCALE);
        Random random = new Random(seed);
        for (int i = 0; i < 46; i++) {
            double angle = random.nextDouble() * 2 * Math.PI;
            double r = 6.15 + random.nextDouble() * 0.7;
            double heading = angle + random.nextGaussian() * 0.6;
            double width = 0.025 + 0.05 * random.nextDouble() * random.nextDouble();
            Path2D.Double path = new Path2D.Double();
            double x = r * Math.cos(angle);
            double y = r * Math.sin(angle);
            path.moveTo(x, y);
            for (int k = 0; k < 26 && Math.hypot(x / 10.0, y / 6.9) < 1; k++) {
                heading += random.nextGaussian() * 0.28;
                x += 0.22 * Math.cos(heading);
                y += 0.22 * Math.sin(heading);
                path.lineTo(x, y);
            }
            g.setColor(new Color(176, 48, 44, 70 + random.nextInt(70)));
            g.setStroke(new BasicStroke((float) width, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
            g.draw(path);
        }
        wire(g, -1);
        wire(g, 1);
        g.dispose();
    }

    private static void wire(Graphics2D g, int side) {
        Path2D.Double wire = new Path2D.Double();
        wire.moveTo(-5.6, side * 10.4);
        wire.curveTo(-5.4, side * 5.4, -3.0, side * 6.75, 0, side * 6.9);
        wire.curveTo(3.0, side * 6.75, 5.4, side * 5.4, 5.6, side * 10.4);
        float[] widths = {0.62f, 0.44f, 0.16f};
        Color[] colours = {new Color(20, 20, 24, 90), new Color(128, 134, 140), new Color(226, 230, 232)};
        for (int i = 0; i < widths.length; i++) {
            g.setColor(colours[i]);
            g.setStroke(new BasicStroke(widths[i], BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
            g.draw(wire);
        }
    }

    /** The nucleus with its sutures and shells, transparent around; {@link Anatomy#NUCLEUS} is its radius. */
    BufferedImage nucleus() {
        int size = (int) (2 * Anatomy.NUCLEUS * SCALE);
        BufferedImage image = new BufferedImage(size, size, BufferedImage.TYPE_INT_ARGB);
        for (int py = 0; py < size; py++) {
            for (int px = 0; px < size; px++) {
                double x = (px + 0.5) / SCALE - Anatomy.NUCLEUS;
                double y = (py + 0.5) / SCALE - Anatomy.NUCLEUS;
                image.setRGB(px, py, nucleusColour(x, y));
            }
        }
        return image;
    }

    private int nucleusColour(double x, double y) {
        double r = Math.hypot(x, y) / Anatomy.NUCLEUS;
        if (r >= 1) {
            return 0;
        }
        double angle = Math.atan2(y, x);
        double shells = 0.5 + 0.5 * Math.cos(r * 26 + 1.4 * noise.fractal(x, y, 2));
        double suture = Math.pow(Math.abs(Math.cos(1.5 * angle + 0.4)), 60) * (1 - ramp(r, 0.35, 0.7));
        double light = 0.93 + 0.07 * shells + 0.16 * suture + 0.16 * noise.fractal(x * 1.4, y * 1.4, 4);
        Tint tint = new Tint(214, 150, 74)
                .mixed(new Tint(206, 118, 58), ramp(r, 0.1, 0.9))
                .lit(light);
        int alpha = (int) (178 * (1 - 0.45 * ramp(r, 0.75, 1.0)));
        return (tint.rgb() & 0xFFFFFF) | (alpha << 24);
    }
}
