package org.sideport.media.track;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameSweep;
import org.sideport.media.SmallPicture;
import org.sideport.media.trace.Sharpness;
import org.sideport.media.track.EyeView.Missing;
import org.sideport.stats.geometry.Circle;
import org.sideport.stats.geometry.Ellipse;
import org.sideport.stats.geometry.Point;

/**
 * Limbus and pupil in one picture: a vote of the gradients for centre and radius, edge points on rays from there, and an
 * ellipse through those that agree. What it cannot see it says.
 */
public final class EyeFinder {

    /** Width of the pictures that are looked at, pixels: more adds time and noise, not accuracy. */
    static final int WIDTH = 320;

    private static final double DARK = 26;

    /** Share of the circumference on which the edge must be seen. */
    static final double LEAST_CONFIDENCE = 0.45;

    private static final double LEAST_RADIUS = 0.14;
    private static final double MOST_RADIUS = 0.75;

    /** Without a gradient of this strength, steps of brightness a pixel, there is no edge to look at. */
    private static final double BLUR = 2;

    /** With none of this strength it is the focus that is to blame if nothing is found. */
    private static final double WEAK = 4;

    private EyeFinder() {}

    public static EyeView find(SmallPicture picture, FrameSweep.Scale scale) {
        GrayPicture fine = GrayPicture.of(picture);
        int halved = 1;
        while (fine.width() > WIDTH) {
            fine = fine.half();
            halved *= 2;
        }
        double sharpness = Sharpness.tenengrad(bytes(fine), fine.width(), fine.height());
        double mean = 0;
        for (float v : fine.values()) {
            mean += v;
        }
        if (mean / fine.values().length < DARK) {
            return new EyeView(null, null, Missing.DARK, sharpness);
        }
        return find(fine, new Back(halved, scale.factor()), sharpness);
    }

    private static EyeView find(GrayPicture fine, Back back, double sharpness) {
        GrayPicture coarse = fine.half();
        CentreVote vote = new CentreVote(coarse);
        if (vote.strongest() < BLUR) {
            return new EyeView(null, null, Missing.OUT_OF_FOCUS, sharpness);
        }
        double least = LEAST_RADIUS * coarse.height();
        double most = MOST_RADIUS * coarse.height();
        boolean beyond = false;
        @Nullable EyeEdge best = null;
        @Nullable Ellipse chosen = null;
        for (CentreVote.Candidate candidate : vote.circles(least, most)) {
            Circle c = candidate.circle();
            Circle rough = new Circle(2 * c.centreX(), 2 * c.centreY(), 2 * c.radius());
            List<Point> edge = RayEdges.find(fine, rough, 0.7, 1.3, 1);
            RobustEllipse.Found found = RobustEllipse.fit(edge, 2 * least, 2 * most);
            if (found == null) {
                continue;
            }
            double confidence = found.inliers() / (double) RayEdges.RAYS;
            double seen = insideShare(found.ellipse(), fine);
            if (confidence < LEAST_CONFIDENCE || seen < 0.5) {
                beyond |= confidence > 0.6 * seen && seen < 0.7;
            } else if (best == null || confidence > best.confidence() + 0.1) {
                chosen = found.ellipse();
                best = new EyeEdge(back.scaled(chosen), confidence);
            }
        }
        if (best == null || chosen == null) {
            Missing why = vote.strongest() < WEAK ? Missing.OUT_OF_FOCUS : Missing.NO_EYE;
            return new EyeView(null, null, beyond ? Missing.BEYOND_PICTURE : why, sharpness);
        }
        return new EyeView(best, pupil(fine, chosen, back), null, sharpness);
    }

    /** The pupil is darker than the iris, or brighter where the retina throws the light back. */
    private static @Nullable EyeEdge pupil(GrayPicture fine, Ellipse limbus, Back back) {
        double radius = limbus.equivalentDiameter() / 2;
        Circle around = new Circle(limbus.centreX(), limbus.centreY(), radius);
        @Nullable EyeEdge best = null;
        for (int sign : new int[] {1, -1}) {
            List<Point> edge = RayEdges.find(fine, around, 0.2, 0.85, sign);
            RobustEllipse.Found found = RobustEllipse.fit(edge, 0.15 * radius, 0.9 * radius);
            if (found == null || found.ellipse().centre().distance(limbus.centre()) > 0.25 * radius) {
                continue;
            }
            double confidence = found.inliers() / (double) RayEdges.RAYS;
            if (confidence >= LEAST_CONFIDENCE && (best == null || confidence > best.confidence())) {
                best = new EyeEdge(back.scaled(found.ellipse()), confidence);
            }
        }
        return best;
    }

    private static double insideShare(Ellipse e, GrayPicture picture) {
        int inside = 0;
        int steps = 90;
        for (int k = 0; k < steps; k++) {
            double angle = 2 * Math.PI * k / steps;
            double u = e.semiMajor() * Math.cos(angle);
            double v = e.semiMinor() * Math.sin(angle);
            double x = e.centreX() + u * Math.cos(e.angle()) - v * Math.sin(e.angle());
            double y = e.centreY() + u * Math.sin(e.angle()) + v * Math.cos(e.angle());
            inside += picture.holds(x, y, 0) ? 1 : 0;
        }
        return inside / (double) steps;
    }

    /** From pixels' middles of the picture that was looked at to lengths from the corner of the recording's. */
    private record Back(int halved, double factor) {
        Ellipse scaled(Ellipse e) {
            double size = halved * factor;
            return new Ellipse(
                    (e.centreX() * halved + 0.5) * factor,
                    (e.centreY() * halved + 0.5) * factor,
                    e.semiMajor() * size,
                    e.semiMinor() * size,
                    e.angle());
        }
    }

    private static byte[] bytes(GrayPicture picture) {
        byte[] bytes = new byte[picture.values().length];
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) Math.round(picture.values()[i]);
        }
        return bytes;
    }
}
