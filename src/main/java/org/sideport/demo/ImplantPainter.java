package org.sideport.demo;

import static org.sideport.demo.Anatomy.MAIN;
import static org.sideport.demo.Anatomy.OPTIC;
import static org.sideport.demo.Anatomy.polar;
import static org.sideport.demo.Noise.mix;
import static org.sideport.demo.Noise.ramp;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RadialGradientPaint;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;

/** The artificial lens: rolled, unfolding, turned into its place. Works in mm. */
final class ImplantPainter {

    private static final Color EDGE = new Color(236, 246, 255, 205);
    private static final Color BODY = new Color(214, 232, 255, 92);

    private final EyeScript script;

    ImplantPainter(EyeScript script) {
        this.script = script;
    }

    /** @param g in mm from the limbus centre, clipped to what the cornea shows */
    void paint(Graphics2D g, int frame) {
        double inserted = script.done("lens_insertion", frame);
        double out = ramp(inserted, 0.18, 0.72);
        if (out <= 0) {
            return;
        }
        double placed = script.done("lens_positioning", frame);
        double unfolded = ramp(inserted, 0.5, 1.0);
        Point2D.Double start = polar(4.9, MAIN);
        double settle = ramp(placed, 0.4, 1);
        double x = mix(start.x, mix(0.45, 0.05, settle), out);
        double y = mix(start.y, mix(0.35, 0.02, settle), out);
        AffineTransform old = g.getTransform();
        g.translate(x, y);
        // rolled, it lies along the injector
        g.rotate(MAIN + 1.45 * ramp(placed, 0.1, 0.9));
        double narrow = mix(0.26, 1, unfolded);
        haptic(g, narrow, unfolded);
        g.rotate(Math.PI);
        haptic(g, narrow, unfolded);
        g.rotate(-Math.PI);
        Ellipse2D.Double optic = new Ellipse2D.Double(-OPTIC, -OPTIC * narrow, 2 * OPTIC, 2 * OPTIC * narrow);
        g.setPaint(new RadialGradientPaint(
                new Point2D.Double(0, 0), (float) OPTIC, new float[] {0f, 0.8f, 1f}, new Color[] {
                    new Color(255, 230, 200, 16), new Color(226, 236, 250, 34), BODY
                }));
        g.fill(optic);
        g.setStroke(new BasicStroke(0.16f));
        g.setColor(new Color(70, 26, 14, 80));
        g.draw(new Ellipse2D.Double(-OPTIC + 0.1, -OPTIC * narrow + 0.1, 2 * OPTIC, 2 * OPTIC * narrow));
        g.setStroke(new BasicStroke(0.085f));
        g.setColor(EDGE);
        g.draw(optic);
        g.setColor(new Color(255, 255, 255, 120));
        g.setStroke(new BasicStroke(0.05f));
        g.draw(new Ellipse2D.Double(-OPTIC * 0.94, -OPTIC * 0.94 * narrow, OPTIC * 1.88, OPTIC * 1.88 * narrow));
        g.setTransform(old);
    }

    /** One springy arm, from the edge of the optic round to its free end. */
    private static void haptic(Graphics2D g, double narrow, double unfolded) {
        double reach = mix(3.9, 4.9, unfolded);
        Path2D.Double arm = new Path2D.Double();
        arm.moveTo(OPTIC * 0.86, -OPTIC * 0.5 * narrow);
        arm.curveTo(reach, -2.2 * narrow, reach * 1.04, -0.2 * narrow, reach * 0.93, 1.5 * narrow);
        arm.curveTo(reach * 0.88, 1.9 * narrow, reach * 0.84, 1.7 * narrow, reach * 0.87, 1.2 * narrow);
        arm.curveTo(reach * 0.92, -0.2 * narrow, reach * 0.86, -1.0 * narrow, OPTIC * 0.98, 0.1 * narrow);
        g.setColor(BODY);
        g.fill(arm);
        g.setStroke(new BasicStroke(0.075f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(EDGE);
        g.draw(arm);
    }
}
