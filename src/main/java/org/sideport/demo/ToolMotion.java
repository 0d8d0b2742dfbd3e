package org.sideport.demo;

import static org.sideport.demo.Anatomy.MAIN;
import static org.sideport.demo.Anatomy.SIDE;
import static org.sideport.demo.Anatomy.polar;
import static org.sideport.demo.Noise.mix;
import static org.sideport.demo.Noise.ramp;

import java.awt.geom.Point2D;
import org.jspecify.annotations.Nullable;
import org.sideport.demo.EyePose.Held;

/** What the instruments do while they work: a path of the tip for each step. */
final class ToolMotion {

    private static final double TURN = 2 * Math.PI;

    private final EyeScript.EyeLook look;

    ToolMotion(EyeScript.EyeLook look) {
        this.look = look;
    }

    /**
     * @param step id of a step
     * @param u how much of this episode has passed, 0 to 1
     * @param level how much of the step is done over all episodes, 0 to 1
     */
    Held main(String step, double u, double level) {
        return switch (step) {
            case "side_port" -> along(Tool.SIDE_BLADE, SIDE, mix(7.4, 4.3, stab(u)));
            case "main_incision" -> along(Tool.KERATOME, MAIN, mix(7.6, 3.7, stab(u)));
            case "capsule_dye" -> held(Tool.CANNULA, polar(1.7, TURN * u - 1), SIDE, 0);
            case "ovd_chamber", "ovd_bag" -> along(Tool.CANNULA, MAIN, mix(-2.6, 2.6, ramp(u, 0.2, 1)));
            case "rhexis" -> rhexis(u, level);
            case "hydrodissection" -> hydrodissection(u);
            case "sculpting" -> along(Tool.PHACO, MAIN + 0.03 * Math.sin(u * 9), mix(2.2, -2.1, stroke(u)));
            case "division" -> offset(Tool.PHACO, MAIN, 0.2, 0.15 + 0.45 * pull(u));
            case "fragment_removal" -> offset(Tool.PHACO, MAIN, 0.25 + 0.25 * Math.sin(u * 23), 0.3 * Math.sin(u * 17));
            case "cortex_aspiration" -> cortex(u);
            case "capsule_polishing" ->
                held(
                        Tool.ASPIRATION,
                        new Point2D.Double(1.6 * Math.sin(TURN * 2 * u), 1.2 * Math.sin(TURN * 3 * u)),
                        MAIN,
                        0);
            case "lens_insertion" -> held(Tool.INJECTOR, polar(mix(5.4, 4.3, ramp(u, 0, 0.2)), MAIN), MAIN, u);
            case "lens_positioning" -> held(Tool.HOOK, polar(2.3, MAIN - 2.0 + 1.4 * pull(u)), MAIN, 0);
            case "ovd_removal" ->
                held(Tool.ASPIRATION, polar(1.2 + 1.1 * Math.sin(TURN * 2 * u), TURN * 1.5 * u), MAIN, 0);
            case "chamber_flushing" -> held(Tool.CANNULA, polar(2.2, TURN * u + 1), SIDE, 0);
            case "hydration" -> hydration(u);
            default -> throw new IllegalArgumentException("no movement for " + step);
        };
    }

    /** The other hand's instrument; it comes and goes with the main one. */
    @Nullable
    Held second(String step, double u) {
        return switch (step) {
            case "sculpting" ->
                held(Tool.CHOPPER, polar(mix(2.6, 2.2, Math.sin(u * 11)), SIDE + 0.15 * Math.sin(u * 7)), SIDE, 0);
            case "division" ->
                offset(Tool.CHOPPER, MAIN, -0.1, -0.15 - 0.55 * pull(u)).withHandle(SIDE);
            case "fragment_removal" -> {
                // to the rim for a piece, to the centre with it, and on to the next
                int piece = Math.min(3, (int) (u * 4));
                double inside = u * 4 - piece;
                Point2D.Double rim = polar(2.4, MAIN + Math.PI * (0.25 + piece * 0.5));
                double out = piece == 0 ? 1 : ramp(inside, 0, 0.16);
                double in = Math.max(1 - out, ramp(inside, 0.18, 0.45));
                yield held(Tool.CHOPPER, new Point2D.Double(mix(rim.x, -0.6, in), mix(rim.y, -0.2, in)), SIDE, 0);
            }
            default -> null;
        };
    }

    /** Where the tear of the rhexis has come to: direction from the rhexis centre, radians. */
    static double tearAngle(double level) {
        return MAIN + 1.1 - TURN * ramp01(level);
    }

    /** The tear begins after the puncture, and the flap is out before the step ends. */
    static double ramp01(double level) {
        return Math.max(0, Math.min(1, (level - 0.1) / 0.82));
    }

    private Held rhexis(double u, double level) {
        double radius = look.rhexisMm() / 2;
        double angle = tearAngle(level);
        double torn = ramp01(level);
        // the flap is held a little behind the tear and nearer to the centre
        double hold = radius * mix(0.35, 0.8, ramp(torn, 0, 0.15));
        Point2D.Double tip = polar(hold, angle + 0.25 * ramp(torn, 0, 0.1));
        double regrasp = regrasp(torn);
        tip.x = look.rhexisX() + tip.x * (1 - 0.2 * regrasp);
        tip.y = look.rhexisY() + tip.y * (1 - 0.2 * regrasp);
        return held(Tool.FORCEPS, tip, MAIN, Math.max(regrasp, u < 0.06 ? 1 : 0));
    }

    /** 1 in the middle of letting go and grasping again, which happens three times round. */
    static double regrasp(double torn) {
        double phase = torn * 4 % 1;
        return torn <= 0.2 || torn >= 0.99 ? 0 : Math.max(0, 1 - Math.abs(phase - 0.1) / 0.1);
    }

    private Held hydrodissection(double u) {
        double reach = look.rhexisMm() / 2 + 0.35;
        double turn = Math.max(0, u - 0.6) * 2.2 * Math.sin(u * 30);
        return held(Tool.CANNULA, polar(mix(reach, reach - 0.7, ramp(u, 0.5, 0.65)), MAIN - 1.9 + turn * 0.4), MAIN, 0);
    }

    private static Held cortex(double u) {
        int strands = LensPainter.STRANDS;
        int strand = Math.min(strands - 1, (int) (u * strands));
        double inside = u * strands - strand;
        double angle = LensPainter.strandAngle(strand);
        double out = inside < 0.35 ? ramp(inside, 0, 0.3) : 1 - ramp(inside, 0.45, 0.95);
        return held(Tool.ASPIRATION, polar(mix(0.15, 3.3, out), angle), MAIN, 0);
    }

    private static Held hydration(double u) {
        if (u < 0.62) {
            double side = mix(-0.17, 0.17, ramp(u, 0.26, 0.36));
            return held(Tool.CANNULA, polar(5.7, MAIN + side), MAIN + side, 0);
        }
        double move = ramp(u, 0.62, 0.86);
        double angle = mix(MAIN + 0.17, SIDE - 0.1, move);
        return held(Tool.CANNULA, polar(mix(5.7, 6.0, move) + 0.9 * Math.sin(move * Math.PI), angle), angle, 0);
    }

    private static double stab(double u) {
        return u < 0.6 ? ramp(u, 0.1, 0.6) : 1 - ramp(u, 0.68, 1);
    }

    /** Seven slow pushes forward, each with a quick return. */
    private static double stroke(double u) {
        double phase = u * 7 % 1;
        return phase < 0.7 ? ramp(phase, 0, 0.7) : 1 - ramp(phase, 0.7, 1);
    }

    private static double pull(double u) {
        double phase = u < 0.5 ? u * 2 : u * 2 - 1;
        return phase < 0.75 ? ramp(phase, 0.15, 0.7) : 1 - ramp(phase, 0.75, 1);
    }

    private static Held along(Tool tool, double angle, double radius) {
        return held(tool, polar(radius, angle), angle, 0);
    }

    /** Forward along an axis from the centre, and across it. */
    private static Held offset(Tool tool, double axis, double forward, double across) {
        return held(
                tool,
                new Point2D.Double(
                        forward * Math.cos(axis) - across * Math.sin(axis),
                        forward * Math.sin(axis) + across * Math.cos(axis)),
                axis,
                0);
    }

    private static Held held(Tool tool, Point2D.Double tip, double from, double open) {
        return new Held(tool, tip.x, tip.y, from, open);
    }
}
