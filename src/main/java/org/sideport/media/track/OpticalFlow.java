package org.sideport.media.track;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.geometry.Point;

/**
 * Where small patches of one picture have gone in the next: the iteration of Lucas and Kanade (B. D. Lucas, T. Kanade, An
 * iterative image registration technique with an application to stereo vision, IJCAI 1981, 674–679) from coarse to fine, as
 * in J.-Y. Bouguet, Pyramidal implementation of the affine Lucas Kanade feature tracker, Intel Corporation 2001, with the
 * derivative mask of Scharr.
 */
public final class OpticalFlow {

    /** Half the side of the patch, pixels: 21 pixels square. */
    static final int RADIUS = 10;

    private static final int ITERATIONS = 30;
    private static final double CLOSE_ENOUGH = 0.01;

    /** Least eigenvalue of the gradient matrix for each pixel of the patch, squared steps of brightness. */
    private static final double LEAST_EIGENVALUE = 0.1;

    private final List<GrayPicture> levels;

    private OpticalFlow(List<GrayPicture> levels) {
        this.levels = List.copyOf(levels);
    }

    /**
     * A picture ready to be compared.
     *
     * @param levels in the pyramid, at least 1; fewer where the picture becomes smaller than a patch
     */
    public static OpticalFlow of(GrayPicture picture, int levels) {
        List<GrayPicture> pyramid = new ArrayList<>();
        pyramid.add(picture);
        while (pyramid.size() < levels) {
            GrayPicture last = pyramid.get(pyramid.size() - 1);
            if (Math.min(last.width(), last.height()) < 4 * RADIUS) {
                break;
            }
            pyramid.add(last.half());
        }
        return new OpticalFlow(pyramid);
    }

    public GrayPicture picture() {
        return levels.get(0);
    }

    /**
     * Where the patch around {@code (x, y)} of this picture is in {@code next}.
     *
     * @return {@code null} if the patch has no structure, leaves the picture or the iteration does not settle
     */
    public @Nullable Point follow(OpticalFlow next, double x, double y) {
        return follow(next, x, y, 0, 0);
    }

    /** As {@link #follow(OpticalFlow, double, double)}, looking first where it has moved by a guess. */
    @Nullable
    Point follow(OpticalFlow next, double x, double y, double guessX, double guessY) {
        int top = Math.min(levels.size(), next.levels.size()) - 1;
        double scale = 1.0 / (1 << top);
        double[] flow = {guessX * scale, guessY * scale};
        for (int level = top; level >= 0; level--) {
            double at = 1.0 / (1 << level);
            boolean settled = step(levels.get(level), next.levels.get(level), x * at, y * at, flow, level == 0);
            if (!settled) {
                return null;
            }
            if (level > 0) {
                flow[0] *= 2;
                flow[1] *= 2;
            }
        }
        return next.picture().holds(x + flow[0], y + flow[1], 0) ? new Point(x + flow[0], y + flow[1]) : null;
    }

    /**
     * How far the way there and back misses its start (Z. Kalal, K. Mikolajczyk, J. Matas, Forward-backward error, ICPR 2010,
     * 2756–2759), pixels.
     */
    double backwardError(OpticalFlow next, double x, double y, Point there) {
        Point back = next.follow(this, there.x(), there.y(), x - there.x(), y - there.y());
        return back == null ? Double.POSITIVE_INFINITY : Math.hypot(back.x() - x, back.y() - y);
    }

    /** @param flow in and out */
    private static boolean step(GrayPicture a, GrayPicture b, double x, double y, double[] flow, boolean finest) {
        int side = 2 * RADIUS + 1;
        double[] values = new double[side * side];
        double[] gx = new double[side * side];
        double[] gy = new double[side * side];
        double xx = 0;
        double xy = 0;
        double yy = 0;
        double[] patch = patch(a, x, y, RADIUS + 1);
        int wide = side + 2;
        for (int v = 0; v < side; v++) {
            for (int u = 0; u < side; u++) {
                int i = v * side + u;
                int p = (v + 1) * wide + u + 1;
                double ix = (3 * (patch[p - wide + 1] + patch[p + wide + 1] - patch[p - wide - 1] - patch[p + wide - 1])
                                + 10 * (patch[p + 1] - patch[p - 1]))
                        / 32;
                double iy = (3 * (patch[p + wide - 1] + patch[p + wide + 1] - patch[p - wide - 1] - patch[p - wide + 1])
                                + 10 * (patch[p + wide] - patch[p - wide]))
                        / 32;
                values[i] = patch[p];
                gx[i] = ix;
                gy[i] = iy;
                xx += ix * ix;
                xy += ix * iy;
                yy += iy * iy;
            }
        }
        double determinant = xx * yy - xy * xy;
        double least = (xx + yy - Math.sqrt((xx - yy) * (xx - yy) + 4 * xy * xy)) / 2;
        if (least < LEAST_EIGENVALUE * side * side || !(determinant > 0)) {
            // a coarse level without structure says nothing; the finest must have some
            return !finest;
        }
        double lastX = 0;
        double lastY = 0;
        for (int k = 0; k < ITERATIONS; k++) {
            if (!b.holds(x + flow[0], y + flow[1], -RADIUS)) {
                return !finest;
            }
            double[] moved = patch(b, x + flow[0], y + flow[1], RADIUS);
            double bx = 0;
            double by = 0;
            for (int i = 0; i < moved.length; i++) {
                double difference = values[i] - moved[i];
                bx += difference * gx[i];
                by += difference * gy[i];
            }
            double dx = (yy * bx - xy * by) / determinant;
            double dy = (xx * by - xy * bx) / determinant;
            flow[0] += dx;
            flow[1] += dy;
            if (Math.hypot(dx, dy) < CLOSE_ENOUGH) {
                return true;
            }
            if (k > 0 && Math.abs(dx + lastX) < CLOSE_ENOUGH && Math.abs(dy + lastY) < CLOSE_ENOUGH) {
                // it swings between two places
                flow[0] -= dx / 2;
                flow[1] -= dy / 2;
                return true;
            }
            lastX = dx;
            lastY = dy;
        }
        return true;
    }

    /** Brightness around a place, {@code 2 * radius + 1} pixels square, row by row. */
    static double[] patch(GrayPicture picture, double x, double y, int radius) {
        int side = 2 * radius + 1;
        double[] patch = new double[side * side];
        int left = (int) Math.floor(x) - radius;
        int top = (int) Math.floor(y) - radius;
        if (left < 0 || top < 0 || left + side >= picture.width() || top + side >= picture.height()) {
            for (int v = 0; v < side; v++) {
                for (int u = 0; u < side; u++) {
                    patch[v * side + u] = picture.at(x + u - radius, y + v - radius);
                }
            }
            return patch;
        }
        float fx = (float) (x - Math.floor(x));
        float fy = (float) (y - Math.floor(y));
        float nw = (1 - fx) * (1 - fy);
        float ne = fx * (1 - fy);
        float sw = (1 - fx) * fy;
        float se = fx * fy;
        float[] values = picture.values();
        int width = picture.width();
        for (int v = 0; v < side; v++) {
            int from = (top + v) * width + left;
            for (int u = 0; u < side; u++) {
                int i = from + u;
                patch[v * side + u] =
                        nw * values[i] + ne * values[i + 1] + sw * values[i + width] + se * values[i + width + 1];
            }
        }
        return patch;
    }

    /** Correlation of two patches of one size, −1 to 1; 0 where one of them is even. */
    static double correlation(double[] a, double[] b) {
        double meanA = 0;
        double meanB = 0;
        for (int i = 0; i < a.length; i++) {
            meanA += a[i];
            meanB += b[i];
        }
        meanA /= a.length;
        meanB /= b.length;
        double ab = 0;
        double aa = 0;
        double bb = 0;
        for (int i = 0; i < a.length; i++) {
            ab += (a[i] - meanA) * (b[i] - meanB);
            aa += (a[i] - meanA) * (a[i] - meanA);
            bb += (b[i] - meanB) * (b[i] - meanB);
        }
        return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
    }
}
