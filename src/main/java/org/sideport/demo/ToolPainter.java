package org.sideport.demo;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.LinearGradientPaint;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.awt.geom.RoundRectangle2D;
import org.sideport.demo.EyePose.Held;

/** Draws an instrument with its tip at the origin and its handle along the positive x axis, in mm. */
final class ToolPainter {

    /** Longer than the picture is wide at any zoom. */
    private static final double LONG = 26;

    private static final Color[] STEEL = {
        new Color(74, 80, 88),
        new Color(206, 213, 220),
        new Color(244, 247, 250),
        new Color(128, 136, 146),
        new Color(58, 62, 70)
    };
    private static final Color[] GREY = {
        new Color(58, 62, 68),
        new Color(140, 146, 152),
        new Color(196, 200, 204),
        new Color(104, 110, 116),
        new Color(44, 47, 52)
    };
    private static final Color[] SLEEVE = {
        new Color(120, 138, 170, 215),
        new Color(188, 206, 232, 190),
        new Color(236, 244, 255, 205),
        new Color(164, 184, 216, 190),
        new Color(98, 114, 146, 215)
    };
    private static final Color[] PLASTIC = {
        new Color(44, 104, 138, 225),
        new Color(120, 186, 212, 190),
        new Color(214, 238, 248, 190),
        new Color(98, 168, 198, 195),
        new Color(34, 86, 118, 225)
    };
    private static final float[] STOPS = {0f, 0.25f, 0.42f, 0.75f, 1f};

    void paint(Graphics2D g, Held held) {
        AffineTransform old = g.getTransform();
        // the handle swings about the incision, so its direction depends on where the tip is
        double handleX = 15 * Math.cos(held.from());
        double handleY = 15 * Math.sin(held.from());
        double away = Math.hypot(held.x(), held.y());
        double angle = away > 9 ? held.from() : Math.atan2(handleY - held.y(), handleX - held.x());
        shadow(g, held, angle);
        g.translate(held.x(), held.y());
        g.rotate(angle);
        draw(g, held);
        g.setTransform(old);
    }

    private static void shadow(Graphics2D g, Held held, double angle) {
        double half = halfWidth(held.tool());
        AffineTransform place = AffineTransform.getTranslateInstance(held.x() + 0.22, held.y() + 0.3);
        place.rotate(angle);
        g.setColor(new Color(20, 8, 6, 58));
        g.fill(place.createTransformedShape(new RoundRectangle2D.Double(0.1, -half, LONG, 2 * half, half, half)));
    }

    private static double halfWidth(Tool tool) {
        return switch (tool) {
            case CANNULA, CHOPPER, HOOK -> 0.2;
            case SIDE_BLADE, FORCEPS -> 0.35;
            case ASPIRATION -> 0.55;
            case PHACO, KERATOME, INJECTOR -> 0.95;
        };
    }

    private static void draw(Graphics2D g, Held held) {
        switch (held.tool()) {
            case SIDE_BLADE ->
                blade(g, new double[][] {{0, 0}, {3.6, -0.52}, {4.4, -0.3}, {4.4, 0.3}, {3.4, 0.3}}, 4.3);
            case KERATOME ->
                blade(
                        g,
                        new double[][] {
                            {0, 0}, {2.0, -1.2}, {4.4, -1.2}, {5.6, -0.4}, {5.6, 0.4}, {4.4, 1.2}, {2.0, 1.2}
                        },
                        5.5);
            case CANNULA -> cannula(g);
            case FORCEPS -> forceps(g, held.open());
            case PHACO -> phaco(g);
            case CHOPPER -> hooked(g, 0.85);
            case HOOK -> hooked(g, 0.5);
            case ASPIRATION -> aspiration(g);
            case INJECTOR -> injector(g, held.open());
        }
    }

    private static void blade(Graphics2D g, double[][] outline, double handleFrom) {
        tube(g, handleFrom, LONG, 0.62, GREY);
        tube(g, handleFrom + 2.2, LONG, 0.95, new Color[] {
            new Color(34, 60, 120),
            new Color(92, 126, 190),
            new Color(160, 186, 230),
            new Color(70, 100, 168),
            new Color(26, 46, 96)
        });
        Path2D.Double path = polygon(outline);
        g.setPaint(new LinearGradientPaint(
                new Point2D.Double(0, -1.2),
                new Point2D.Double(1.4, 1.2),
                new float[] {0f, 0.5f, 0.55f, 1f},
                new Color[] {
                    new Color(250, 252, 255),
                    new Color(206, 214, 222),
                    new Color(140, 150, 162),
                    new Color(208, 216, 224)
                }));
        g.fill(path);
        g.setStroke(new BasicStroke(0.06f));
        g.setColor(new Color(70, 76, 86));
        g.draw(path);
    }

    private static void cannula(Graphics2D g) {
        tube(g, 0, 9.4, 0.17, STEEL);
        tube(g, 8.2, 10.4, 0.5, PLASTIC);
        tube(g, 10.2, LONG, 1.15, SLEEVE);
        g.setColor(new Color(30, 34, 40));
        g.fill(new Ellipse2D.Double(-0.07, -0.09, 0.14, 0.18));
    }

    private static void forceps(Graphics2D g, double open) {
        double gap = 0.10 + 0.34 * open;
        for (int side = -1; side <= 1; side += 2) {
            Path2D.Double arm = new Path2D.Double();
            arm.moveTo(0, side * gap);
            arm.lineTo(0.35, side * (gap + 0.16));
            arm.curveTo(3, side * (gap * 1.5 + 0.18), 7, side * 0.55, 10, side * 0.75);
            arm.lineTo(LONG, side * 1.25);
            arm.lineTo(LONG, side * 0.75);
            arm.lineTo(10, side * 0.38);
            arm.curveTo(7, side * 0.25, 3, side * (gap * 1.2), 0.3, side * gap);
            arm.closePath();
            g.setPaint(across(1.3, STEEL));
            g.fill(arm);
            g.setStroke(new BasicStroke(0.045f));
            g.setColor(new Color(52, 58, 66));
            g.draw(arm);
        }
    }

    private static void phaco(Graphics2D g) {
        Path2D.Double tip = polygon(new double[][] {{0, -0.32}, {2.4, -0.46}, {2.4, 0.46}, {0.55, 0.40}});
        g.setPaint(across(0.46, STEEL));
        g.fill(tip);
        g.setColor(new Color(40, 30, 30));
        g.fill(polygon(new double[][] {{0.06, -0.24}, {0.3, -0.22}, {0.6, 0.3}, {0.5, 0.32}}));
        Path2D.Double sleeve = new Path2D.Double();
        sleeve.moveTo(1.5, -0.56);
        sleeve.curveTo(1.9, -0.78, 3, -0.84, 8.6, -0.9);
        sleeve.lineTo(8.6, 0.9);
        sleeve.curveTo(3, 0.84, 1.9, 0.78, 1.5, 0.56);
        sleeve.closePath();
        g.setPaint(across(0.9, SLEEVE));
        g.fill(sleeve);
        g.setColor(new Color(76, 92, 122, 190));
        g.fill(new Ellipse2D.Double(2.3, -0.2, 0.5, 0.36));
        tube(g, 8.4, 10.2, 1.25, PLASTIC);
        tube(g, 10.0, LONG, 1.6, GREY);
    }

    private static void aspiration(Graphics2D g) {
        tube(g, 0, 7, 0.36, STEEL);
        g.setColor(new Color(38, 26, 24));
        g.fill(new Ellipse2D.Double(0.34, -0.15, 0.3, 0.3));
        Path2D.Double sleeve = new Path2D.Double();
        sleeve.moveTo(2.6, -0.44);
        sleeve.curveTo(3, -0.62, 4, -0.68, 8.6, -0.74);
        sleeve.lineTo(8.6, 0.74);
        sleeve.curveTo(4, 0.68, 3, 0.62, 2.6, 0.44);
        sleeve.closePath();
        g.setPaint(across(0.74, SLEEVE));
        g.fill(sleeve);
        tube(g, 8.4, LONG, 1.25, GREY);
    }

    private static void hooked(Graphics2D g, double length) {
        g.setStroke(new BasicStroke(0.3f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        Path2D.Double tip = new Path2D.Double();
        tip.moveTo(0, length * 0.55);
        tip.quadTo(-0.02, 0, 0.5, 0);
        tip.lineTo(1, 0);
        g.setColor(new Color(60, 66, 74));
        g.draw(tip);
        g.setStroke(new BasicStroke(0.16f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(new Color(220, 226, 232));
        g.draw(tip);
        tube(g, 0.8, 9.5, 0.2, STEEL);
        tube(g, 9.2, LONG, 0.85, GREY);
    }

    private static void injector(Graphics2D g, double pushed) {
        Path2D.Double nozzle = polygon(new double[][] {
            {0, -0.55},
            {0.9, -0.86},
            {4.2, -1.05},
            {7.5, -1.9},
            {LONG, -1.9},
            {LONG, 1.9},
            {7.5, 1.9},
            {4.2, 1.05},
            {0.9, 0.86},
            {0.25, 0.55}
        });
        g.setPaint(across(1.9, PLASTIC));
        g.fill(nozzle);
        // the plunger follows the lens
        double plunger = Noise.mix(9, 0.6, Noise.ramp(pushed, 0.15, 0.75));
        tube(g, plunger, LONG, 0.42, GREY);
        g.setStroke(new BasicStroke(0.07f));
        g.setColor(new Color(24, 66, 92, 220));
        g.draw(nozzle);
    }

    private static void tube(Graphics2D g, double from, double to, double half, Color[] colours) {
        g.setPaint(across(half, colours));
        Shape body = new RoundRectangle2D.Double(from, -half, to - from, 2 * half, half, half);
        g.fill(body);
    }

    private static LinearGradientPaint across(double half, Color[] colours) {
        return new LinearGradientPaint(new Point2D.Double(0, -half), new Point2D.Double(0, half), STOPS, colours);
    }

    private static Path2D.Double polygon(double[][] points) {
        Path2D.Double path = new Path2D.Double();
        path.moveTo(points[0][0], points[0][1]);
        for (int i = 1; i < points.length; i++) {
            path.lineTo(points[i][0], points[i][1]);
        }
        path.closePath();
        return path;
    }
}
