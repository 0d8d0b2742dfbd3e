package org.sideport.demo;

import static org.sideport.demo.Anatomy.LIMBUS;
import static org.sideport.demo.Anatomy.MAIN;
import static org.sideport.demo.Anatomy.SIDE;
import static org.sideport.demo.Anatomy.polar;
import static org.sideport.demo.Noise.ramp;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RadialGradientPaint;
import java.awt.geom.AffineTransform;
import java.awt.geom.Arc2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Point2D;
import org.jspecify.annotations.Nullable;
import org.sideport.demo.EyePose.Held;

/** Incisions, bubbles, dust from the fragments, swollen wounds, prolapsed iris and reflections. Works in mm. */
final class SurfacePainter {

    private final EyeScript script;
    private final Noise noise;

    SurfacePainter(EyeScript script) {
        this.script = script;
        this.noise = new Noise(script.look().seed() + 2);
    }

    void incisions(Graphics2D g, int frame) {
        slit(g, SIDE, 0.55, ramp(script.done("side_port", frame), 0.3, 0.6));
        slit(g, MAIN, 1.25, ramp(script.done("main_incision", frame), 0.3, 0.65));
        double wet = script.done("hydration", frame);
        swelling(g, MAIN - 0.17, ramp(wet, 0.06, 0.28));
        swelling(g, MAIN + 0.17, ramp(wet, 0.36, 0.6));
        swelling(g, SIDE - 0.1, ramp(wet, 0.86, 0.98));
        prolapse(g, frame);
    }

    private static void slit(Graphics2D g, double angle, double half, double cut) {
        if (cut <= 0) {
            return;
        }
        AffineTransform old = g.getTransform();
        g.rotate(angle);
        g.translate(LIMBUS - 0.42, 0);
        g.setColor(new Color(210, 222, 226, (int) (70 * cut)));
        g.fill(new Ellipse2D.Double(-0.75, -half * cut, 0.95, 2 * half * cut));
        g.setStroke(new BasicStroke(0.09f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(new Color(120, 30, 30, (int) (170 * cut)));
        g.draw(new Line2D.Double(0.22, -half * cut, 0.22, half * cut));
        g.setColor(new Color(245, 250, 250, (int) (150 * cut)));
        g.setStroke(new BasicStroke(0.05f));
        g.draw(new Line2D.Double(-0.7, -half * 0.8 * cut, -0.7, half * 0.8 * cut));
        g.setTransform(old);
    }

    private static void swelling(Graphics2D g, double angle, double amount) {
        if (amount <= 0) {
            return;
        }
        Point2D.Double p = polar(LIMBUS - 0.75, angle);
        float radius = (float) (1.15 * amount + 0.1);
        g.setPaint(new RadialGradientPaint(p, radius, new float[] {0f, 0.6f, 1f}, new Color[] {
            new Color(238, 242, 244, 190), new Color(232, 238, 240, 120), new Color(230, 236, 240, 0)
        }));
        g.fill(new Ellipse2D.Double(p.x - radius, p.y - radius, 2 * radius, 2 * radius));
    }

    /** Iris bulges through the main incision and slips back within three seconds. */
    private void prolapse(Graphics2D g, int frame) {
        int start = script.frameOf("iris_prolapse");
        if (frame < start) {
            return;
        }
        double seconds = script.clock().seconds(frame - start);
        double bulge = ramp(seconds, 0, 0.5) * (1 - ramp(seconds, 1.9, 3.0));
        if (bulge <= 0.02) {
            return;
        }
        AffineTransform old = g.getTransform();
        g.rotate(MAIN);
        g.translate(LIMBUS - 0.3, 0);
        Color iris = Color.getHSBColor((float) script.look().irisHue(), 0.5f, 0.42f);
        g.setColor(new Color(20, 12, 10, 130));
        g.fill(new Ellipse2D.Double(-0.55, -0.95, 0.5 + 1.5 * bulge, 1.9));
        g.setColor(iris);
        g.fill(new Ellipse2D.Double(-0.5, -0.85, 0.45 + 1.3 * bulge, 1.7));
        g.setColor(new Color(255, 255, 255, 90));
        g.fill(new Ellipse2D.Double(0.1 + 0.3 * bulge, -0.4, 0.25, 0.35));
        g.setTransform(old);
    }

    /** Bubbles float in the gel until it is washed out; dust whirls round the working phaco tip. */
    void loose(Graphics2D g, int frame, EyePose pose) {
        double gel = Math.max(
                script.done("ovd_chamber", frame) * (1 - script.done("sculpting", frame)),
                script.done("ovd_bag", frame) * (1 - script.done("ovd_removal", frame)));
        for (int i = 0; i < 7; i++) {
            if (gel > (i + 0.5) / 7) {
                double radius = 0.10 + 0.16 * Math.abs(noise.at(i * 3.7, 2.5));
                bubble(g, 3.6 * noise.at(i * 1.9, 11.5), 3.4 * noise.at(i * 2.9, 15.5), radius);
            }
        }
        String step = script.actAt(frame).what();
        Held main = pose.main();
        if (main != null && main.tool() == Tool.PHACO && Math.hypot(main.x(), main.y()) < 3.4) {
            dust(g, frame, main, step.equals("fragment_removal") ? 26 : 12);
        }
    }

    private static void bubble(Graphics2D g, double x, double y, double radius) {
        g.setColor(new Color(255, 255, 255, 26));
        g.fill(new Ellipse2D.Double(x - radius, y - radius, 2 * radius, 2 * radius));
        g.setStroke(new BasicStroke(0.04f));
        g.setColor(new Color(255, 250, 240, 150));
        g.draw(new Ellipse2D.Double(x - radius, y - radius, 2 * radius, 2 * radius));
        g.setColor(new Color(255, 255, 255, 220));
        g.fill(new Ellipse2D.Double(x - radius * 0.55, y - radius * 0.55, radius * 0.4, radius * 0.4));
    }

    private void dust(Graphics2D g, int frame, Held main, int grains) {
        double t = script.clock().seconds(frame);
        for (int i = 0; i < grains; i++) {
            double phase = (t * (0.7 + 0.5 * Math.abs(noise.at(i, 30.5))) + i * 0.37) % 1;
            double angle = i * 2.4 + 1.6 * phase;
            double radius = 0.35 + 1.5 * (1 - phase);
            double size = 0.05 + 0.09 * Math.abs(noise.at(i * 2.2, 35.5));
            g.setColor(new Color(255, 236, 196, (int) (130 * phase)));
            g.fill(new Ellipse2D.Double(
                    main.x() + radius * Math.cos(angle) - size,
                    main.y() + radius * Math.sin(angle) - size,
                    2 * size,
                    2 * size));
        }
    }

    /** The lamps of the microscope on the cornea. They stay with the microscope, not with the eye. */
    void reflections(Graphics2D g, @Nullable Held main) {
        double shift = main == null ? 0 : 0.06;
        glint(g, -1.35 + shift, -1.75, 0.62, 245);
        glint(g, 0.15 + shift, -2.05, 0.42, 225);
        g.setStroke(new BasicStroke(0.55f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(new Color(255, 255, 255, 16));
        g.draw(new Arc2D.Double(-4.7, -4.7, 9.4, 9.4, 100, 75, Arc2D.OPEN));
        g.draw(new Arc2D.Double(-4.9, -4.9, 9.8, 9.8, 290, 45, Arc2D.OPEN));
    }

    private static void glint(Graphics2D g, double x, double y, double radius, int alpha) {
        float outer = (float) radius;
        g.setPaint(new RadialGradientPaint(new Point2D.Double(x, y), outer, new float[] {0f, 0.45f, 1f}, new Color[] {
            new Color(255, 255, 252, alpha), new Color(255, 252, 240, alpha * 3 / 4), new Color(255, 240, 220, 0)
        }));
        g.fill(new Ellipse2D.Double(x - radius, y - radius, 2 * radius, 2 * radius));
    }
}
