package org.sideport.demo;

import static org.sideport.demo.Anatomy.polar;
import static org.sideport.demo.Noise.ramp;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import org.jspecify.annotations.Nullable;
import org.sideport.demo.EyePose.Held;

/** The front capsule: its dye, the round tear and the flap. Works in mm. */
final class CapsulePainter {

    private final EyeScript script;
    private final EyeScript.EyeLook look;

    CapsulePainter(EyeScript script) {
        this.script = script;
        this.look = script.look();
    }

    void paint(Graphics2D g, int frame, EyePose pose) {
        double level = script.done("rhexis", frame);
        double torn = ToolMotion.ramp01(level);
        dye(g, frame, torn);
        if (level > 0.03 && torn <= 0) {
            Point2D.Double stab = polar(look.rhexisMm() / 2 * 0.5, ToolMotion.tearAngle(0));
            g.setColor(new Color(255, 236, 214, 190));
            g.setStroke(new BasicStroke(0.07f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
            g.draw(new Line2D.Double(look.rhexisX(), look.rhexisY(), stab.x, stab.y));
        }
        if (torn > 0) {
            flap(g, torn, level, pose.main());
            edge(g, torn);
            tear(g, frame);
        }
    }

    /** Stained capsule is blue except where it has been torn away. */
    private void dye(Graphics2D g, int frame, double torn) {
        if (!look.dyed()) {
            return;
        }
        double stain = script.done("capsule_dye", frame);
        if (stain <= 0) {
            return;
        }
        Area stained = new Area(new Ellipse2D.Double(-4, -4, 8, 8));
        if (torn > 0) {
            stained.subtract(new Area(sector(torn)));
        }
        double washed = script.done("cortex_aspiration", frame);
        double strength = ramp(stain, 0, 0.5) * (stain < 1 ? 1.35 - 0.35 * ramp(stain, 0.6, 1) : 1);
        g.setColor(new Color(38, 70, 190, (int) (86 * strength * (1 - 0.55 * washed))));
        g.fill(stained);
    }

    private Path2D.Double sector(double torn) {
        Path2D.Double sector = arc(torn, look.rhexisMm() / 2);
        if (torn < 1) {
            sector.lineTo(look.rhexisX(), look.rhexisY());
        }
        sector.closePath();
        return sector;
    }

    private Path2D.Double arc(double torn, double radius) {
        double from = ToolMotion.tearAngle(0);
        double turn = -2 * Math.PI * torn;
        int steps = Math.max(2, (int) (torn * 72));
        Path2D.Double arc = new Path2D.Double();
        for (int i = 0; i <= steps; i++) {
            Point2D.Double p = polar(radius, from + turn * i / steps);
            if (i == 0) {
                arc.moveTo(look.rhexisX() + p.x, look.rhexisY() + p.y);
            } else {
                arc.lineTo(look.rhexisX() + p.x, look.rhexisY() + p.y);
            }
        }
        return arc;
    }

    private void edge(Graphics2D g, double torn) {
        Path2D.Double arc = arc(torn, look.rhexisMm() / 2);
        if (torn >= 1) {
            arc.closePath();
        }
        g.setStroke(new BasicStroke(0.15f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(new Color(86, 24, 10, 110));
        g.draw(arc);
        g.setStroke(new BasicStroke(0.065f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(look.dyed() ? new Color(150, 182, 255, 225) : new Color(255, 238, 206, 215));
        g.draw(arc);
    }

    /** The torn sheet, folded over and hanging from the forceps. */
    private void flap(Graphics2D g, double torn, double level, @Nullable Held held) {
        if (level >= 1) {
            return;
        }
        double radius = look.rhexisMm() / 2;
        double angle = ToolMotion.tearAngle(level);
        Point2D.Double lead = at(radius, angle);
        boolean free = torn >= 1;
        Point2D.Double tip = held == null || held.tool() != Tool.FORCEPS
                ? at(radius * 0.5, angle + 0.4)
                : new Point2D.Double(held.x(), held.y());
        double length = Math.min(1.5, 0.35 + torn * 2.0);
        Point2D.Double root = free ? new Point2D.Double(tip.x - 1.1, tip.y - 0.9) : lead;
        Point2D.Double tail = free ? new Point2D.Double(tip.x - 1.6, tip.y + 0.3) : at(radius * 0.45, angle + length);
        Point2D.Double bulge = at(radius * 0.8, angle + length * 0.75);
        Path2D.Double sheet = new Path2D.Double();
        sheet.moveTo(root.x, root.y);
        if (free) {
            sheet.quadTo(tip.x - 1.9, tip.y - 0.4, tail.x, tail.y);
        } else {
            sheet.quadTo(bulge.x, bulge.y, tail.x, tail.y);
        }
        sheet.quadTo((tail.x + tip.x) / 2 + 0.25, (tail.y + tip.y) / 2 + 0.2, tip.x, tip.y);
        sheet.quadTo((tip.x + root.x) / 2 - 0.1, (tip.y + root.y) / 2 - 0.1, root.x, root.y);
        g.setColor(look.dyed() ? new Color(86, 120, 226, 150) : new Color(255, 226, 196, 105));
        g.fill(sheet);
        g.setStroke(new BasicStroke(0.06f));
        g.setColor(look.dyed() ? new Color(176, 200, 255, 200) : new Color(255, 246, 230, 190));
        g.draw(sheet);
    }

    private Point2D.Double at(double radius, double angle) {
        Point2D.Double p = polar(radius, angle);
        return new Point2D.Double(look.rhexisX() + p.x, look.rhexisY() + p.y);
    }

    /** The run-out of the edge, and from the rescue on the notch that stays. */
    private void tear(Graphics2D g, int frame) {
        int start = script.frameOf("capsule_tear_anterior");
        if (frame < start) {
            return;
        }
        double grown = ramp((frame - start) / 18.0, 0, 1);
        double rescued = frame < script.frameOf("flap_rescued") ? 0 : 1;
        Act act = script.actAt(start);
        double level =
                Noise.mix(act.startLevel(), act.endLevel(), (start - act.from()) / (double) (act.to() - act.from()));
        double angle = ToolMotion.tearAngle(level);
        double radius = look.rhexisMm() / 2;
        Point2D.Double from = at(radius, angle + 0.12);
        Point2D.Double to = at(radius + 0.62 * grown, angle - 0.05);
        Point2D.Double back = at(radius, angle - 0.3);
        Path2D.Double notch = new Path2D.Double();
        notch.moveTo(from.x, from.y);
        notch.lineTo(to.x, to.y);
        if (rescued > 0) {
            notch.lineTo(back.x, back.y);
        }
        g.setStroke(new BasicStroke(0.08f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(new Color(255, 238, 206, 220));
        g.draw(notch);
    }
}
