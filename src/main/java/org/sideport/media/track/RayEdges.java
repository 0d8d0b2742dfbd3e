package org.sideport.media.track;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.geometry.Circle;
import org.sideport.stats.geometry.Point;

/** Edge points on rays out of a centre: on each the place where brightness changes most in the wanted sense. */
final class RayEdges {

    static final int RAYS = 144;

    /** Least change of brightness across the edge, steps. */
    private static final double LEAST_CONTRAST = 5;

    /** The step is taken between means over this share of the radius on either side. */
    private static final double SIDE = 0.07;

    /** Brightness is the mean of three places across the ray so far apart, pixels: less noise. */
    private static final double BESIDE = 1.5;

    private RayEdges() {}

    /**
     * @param from first and {@code to} last place on the ray, in radii of the circle
     * @param sign 1 for dark inside and bright outside, −1 for the opposite
     * @return at most one point a ray
     */
    static List<Point> find(GrayPicture picture, Circle around, double from, double to, int sign) {
        List<Point> points = new ArrayList<>();
        for (int k = 0; k < RAYS; k++) {
            Point point = onRay(picture, around, 2 * Math.PI * k / RAYS, from, to, sign);
            if (point != null) {
                points.add(point);
            }
        }
        return points;
    }

    private static @Nullable Point onRay(
            GrayPicture picture, Circle around, double angle, double from, double to, int sign) {
        double cos = Math.cos(angle);
        double sin = Math.sin(angle);
        int side = Math.max(2, (int) Math.round(SIDE * around.radius()));
        int first = (int) Math.floor(from * around.radius()) - side;
        int count = (int) Math.ceil(to * around.radius()) + side - first + 1;
        double[] sums = new double[count + 1];
        int inside = count;
        for (int i = 0; i < count; i++) {
            double x = around.centreX() + (first + i) * cos;
            double y = around.centreY() + (first + i) * sin;
            if (!picture.holds(x, y, 2)) {
                inside = i;
                break;
            }
            sums[i + 1] = sums[i]
                    + (picture.at(x, y)
                                    + picture.at(x - BESIDE * sin, y + BESIDE * cos)
                                    + picture.at(x + BESIDE * sin, y - BESIDE * cos))
                            / 3;
        }
        double[] steps = new double[count];
        int best = -1;
        for (int i = side; i + side < inside; i++) {
            // the pixel itself belongs to neither side
            steps[i] = sign * ((sums[i + side + 1] - sums[i + 1]) - (sums[i] - sums[i - side])) / side;
            if (best < 0 || steps[i] > steps[best]) {
                best = i;
            }
        }
        if (best <= side || best + side + 1 >= inside || steps[best] < LEAST_CONTRAST) {
            return null;
        }
        double bend = steps[best - 1] - 2 * steps[best] + steps[best + 1];
        double shift = bend < 0 ? (steps[best - 1] - steps[best + 1]) / (2 * bend) : 0;
        double r = first + best + Math.max(-0.5, Math.min(0.5, shift));
        return new Point(around.centreX() + r * cos, around.centreY() + r * sin);
    }
}
