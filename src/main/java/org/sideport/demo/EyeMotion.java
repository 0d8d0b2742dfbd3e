package org.sideport.demo;

import static org.sideport.demo.Noise.ease;
import static org.sideport.demo.Noise.mix;

import java.awt.geom.Point2D;
import org.jspecify.annotations.Nullable;
import org.sideport.demo.EyePose.Held;

/** Works out from the script where eye and instruments are in any frame. */
final class EyeMotion {

    /** How long an instrument takes to come into the eye or to leave the picture, seconds. */
    private static final double TRAVEL = 0.75;

    private final EyeScript script;
    private final ToolMotion tools;
    private final Noise noise;

    EyeMotion(EyeScript script) {
        this.script = script;
        this.tools = new ToolMotion(script.look());
        this.noise = new Noise(script.look().seed());
    }

    EyePose at(int frame) {
        Act act = script.actAt(frame);
        double width = script.shape().displayWidth();
        double height = script.shape().height();
        double scale = script.look().zoom() * (1 + 0.07 * viewport(frame, 3));
        double x = width / 2 + width * 0.055 * viewport(frame, 1);
        double y = height / 2 - 4 + height * 0.04 * viewport(frame, 2);
        if (!act.isStep()) {
            return new EyePose(x, y, scale, null, null);
        }
        double u = (frame - act.from()) / (double) (act.to() - act.from());
        double level = mix(act.startLevel(), act.endLevel(), u);
        Held work = tools.main(act.what(), u, level);
        double push = push(act.what(), u);
        EyePose still = new EyePose(
                x - push * Math.cos(work.from()) * scale, y - push * Math.sin(work.from()) * scale, scale, null, null);
        Held second = tools.second(act.what(), u);
        Act before = act.enters() ? null : script.actAt(act.from() - 1);
        if (before != null) {
            double share = (frame - act.from() + 1) / (double) travelFrames(act);
            work = glide(tools.main(before.what(), 1, before.endLevel()), work, share);
            Held lastSecond = tools.second(before.what(), 1);
            if (second != null && lastSecond != null) {
                second = glide(lastSecond, second, share);
            }
        }
        return new EyePose(
                still.centreX(),
                still.centreY(),
                scale,
                travel(act, frame, work, still, 0),
                second == null ? null : travel(act, frame, second, still, 5));
    }

    /** The surgeon moves the microscope only while nothing is in the eye: one new place after each pause. */
    private double viewport(int frame, int channel) {
        int pauses = 0;
        for (Act act : script.acts()) {
            if (act.what().equals(Act.PAUSE)) {
                if (act.covers(frame)) {
                    double u = (frame - act.from()) / (double) (act.to() - act.from());
                    return mix(place(pauses, channel), place(pauses + 1, channel), ease(u));
                }
                if (act.to() <= frame) {
                    pauses++;
                }
            }
        }
        return place(pauses, channel);
    }

    /** Only every second pause moves the microscope. */
    private double place(int pauses, int channel) {
        return noise.at(Math.floorDiv(pauses, 2) * 1.37 + 0.5, channel * 7.9 + 0.5);
    }

    /** A blade at the limbus pushes the whole eye away, mm. */
    private static double push(String step, double u) {
        return step.equals("side_port") || step.equals("main_incision")
                ? 0.22 * ease((u - 0.2) / 0.3) * (1 - ease((u - 0.6) / 0.25))
                : 0;
    }

    /** @param late frames by which the instrument comes later and leaves earlier */
    private @Nullable Held travel(Act act, int frame, Held work, EyePose view, int late) {
        int travel = travelFrames(act);
        double in = act.enters() ? (frame - act.from() - late + 1) / (double) travel : 1;
        double out = act.leaves() ? (act.to() - frame - late) / (double) travel : 1;
        double share = Math.min(in, out);
        if (share <= 0) {
            return null;
        }
        if (share >= 1) {
            return tremble(work, frame);
        }
        Point2D.Double edge = edge(work, view);
        // starts and ends just inside the picture, so that an instrument is in view in each frame of the step
        double near = ease(share);
        return work.at(mix(edge.x, work.x(), near), mix(edge.y, work.y(), near));
    }

    private int travelFrames(Act act) {
        return Math.max(2, Math.min(script.clock().frames(TRAVEL), (act.to() - act.from()) / 4));
    }

    /** From where an instrument was at the end of the step before, if it has stayed in the eye. */
    private static Held glide(Held from, Held to, double share) {
        double part = ease(share);
        return to.at(mix(from.x(), to.x(), part), mix(from.y(), to.y(), part));
    }

    private Held tremble(Held work, int frame) {
        double t = script.clock().seconds(frame);
        return work.at(work.x() + 0.05 * noise.at(t * 2.1, 60.5), work.y() + 0.05 * noise.at(t * 2.1, 80.5));
    }

    /** Where the way out along the handle's direction leaves the picture, mm from the limbus centre. */
    private Point2D.Double edge(Held work, EyePose view) {
        double dx = Math.cos(work.from());
        double dy = Math.sin(work.from());
        double margin = 6;
        double width = script.shape().displayWidth();
        double height = script.shape().height();
        double x = view.screenX(work.x());
        double y = view.screenY(work.y());
        double toX = dx > 0 ? (width - margin - x) / dx : (margin - x) / dx;
        double toY = dy > 0 ? (height - margin - y) / dy : (margin - y) / dy;
        double far = Math.min(toX, toY) / view.scale();
        return new Point2D.Double(work.x() + far * dx, work.y() + far * dy);
    }
}
