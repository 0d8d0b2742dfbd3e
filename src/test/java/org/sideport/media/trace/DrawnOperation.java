package org.sideport.media.trace;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;

/**
 * A drawn recording of parts that follow each other, and the truth about it, known from its plan alone. Ten pictures a
 * second; the eye drifts and the microscope zooms slowly all the time.
 */
final class DrawnOperation {

    static final int FPS = 10;

    /** What a part shows. */
    enum Show {
        DRAPE,
        ACTIVE,
        IDLE,
        BLACK,
        GREY,
        BLUE,
        FROZEN,
        BLURRED
    }

    /**
     * @param light of the part; another than that of the part before is a change of the light filter
     * @param cutBefore the recorder was paused before this part: another view, with times that run on
     * @param holeBefore seconds without a frame before this part
     */
    record Part(Show show, double seconds, double light, boolean cutBefore, double holeBefore) {
        static Part of(Show show, double seconds) {
            return new Part(show, seconds, 1, false, 0);
        }

        Part dimmed(double share) {
            return new Part(show, seconds, share, cutBefore, holeBefore);
        }

        Part afterCut() {
            return new Part(show, seconds, light, true, holeBefore);
        }

        Part afterHole(double length) {
            return new Part(show, seconds, light, cutBefore, length);
        }
    }

    /**
     * How hard it is to see what happens.
     *
     * @param noise standard deviation of the sensor's noise, grey levels
     * @param speed of the instrument, 1 is usual
     * @param blur radius out of focus, pixels
     * @param jump after a pause of the recorder the same eye is so far away, pixels; 0 for quite another view
     */
    record Style(double noise, double speed, int blur, double jump) {}

    /** A part with its place on the timeline, seconds. */
    record Placed(Part part, double start, double end) {}

    private final Path file;
    private final List<Placed> parts;

    private DrawnOperation(Path file, List<Placed> parts) {
        this.file = file;
        this.parts = parts;
    }

    Path file() {
        return file;
    }

    List<Placed> parts() {
        return parts;
    }

    static DrawnOperation write(Path file, List<Part> plan, Style style, long seed) throws IOException {
        Random random = new Random(seed);
        DrawnEye eye = new DrawnEye(seed);
        List<Placed> placed = new ArrayList<>();
        int frame = 0;
        double phase = random.nextDouble() * 6;
        int[] shown = eye.plain(0, 0, 0, 0);
        try (VideoWriter writer =
                VideoWriter.open(file, VideoOptions.silent(DrawnEye.WIDTH, DrawnEye.HEIGHT, 1000, 1000 / FPS, 23))) {
            for (Part part : plan) {
                if (part.cutBefore() && style.jump() > 0) {
                    eye.displace(style.jump());
                } else if (part.cutBefore()) {
                    eye = new DrawnEye(random.nextLong());
                }
                frame += (int) Math.round(part.holeBefore() * FPS);
                int frames = (int) Math.round(part.seconds() * FPS);
                placed.add(new Placed(part, (double) frame / FPS, (double) (frame + frames) / FPS));
                for (int i = 0; i < frames; i++, frame++) {
                    double t = (double) frame / FPS;
                    shown = part.show() == Show.FROZEN
                            ? shown
                            : picture(eye, part, t, phase, style, focus(i, frames, style.blur()));
                    Show last = placed.size() > 1
                            ? placed.get(placed.size() - 2).part().show()
                            : part.show();
                    if (i < FPS && (last == Show.DRAPE) != (part.show() == Show.DRAPE)) {
                        // the view moves off the drape, or onto it, within a second
                        Part other = last == Show.DRAPE ? Part.of(Show.DRAPE, 1) : Part.of(Show.ACTIVE, 1);
                        int[] leaving = picture(eye, other, t, phase, style, 0);
                        shown = DrawnEye.joined(shown, leaving, (i + 1) * DrawnEye.WIDTH / FPS);
                    }
                    writer.frame(shown, frame * (1000L / FPS));
                }
            }
            writer.finish();
        }
        return new DrawnOperation(file, placed);
    }

    /** Focus goes and comes within 0.4 s: radius of the blur. */
    private static int focus(int i, int frames, int most) {
        return Math.min(most, Math.min(i / 2 + 1, (frames - 1 - i) / 2 + 1));
    }

    private static int[] picture(DrawnEye eye, Part part, double t, double phase, Style style, int blur) {
        double noise = style.noise();
        double[] working = tip(t * style.speed(), phase);
        double driftX = 6 * Math.sin(t / 4 + phase);
        double driftY = 3 * Math.sin(t / 5.3 + phase);
        double zoom = 1 + 0.12 * Math.sin(t / 9 + phase);
        double[] resting = {14, 4};
        return switch (part.show()) {
            case DRAPE -> eye.drape(2 * driftX, noise);
            case BLACK -> eye.plain(3, 3, 3, 1);
            case GREY -> eye.plain(128, 128, 128, 0);
            case BLUE -> eye.plain(10, 20, 200, 0);
            case IDLE -> eye.eye(driftX, driftY, zoom, part.light(), resting, 0, noise);
            case BLURRED -> eye.eye(driftX, driftY, zoom, part.light(), working, blur, noise);
            default -> eye.eye(driftX, driftY, zoom, part.light(), working, 0, noise);
        };
    }

    /** A tip that goes to and fro, 12 pixels wide, a little more than once a second. */
    private static double[] tip(double t, double phase) {
        return new double[] {
            12 * Math.sin(7.3 * t + phase) + 4 * Math.sin(17 * t), 9 * Math.cos(5.1 * t + phase) + 3 * Math.sin(13 * t)
        };
    }
}
