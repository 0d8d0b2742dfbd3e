package org.sideport.media.track;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.sideport.stats.geometry.Circle;

/**
 * Circles that are dark inside and bright outside, by the vote of the gradients: each edge pixel votes for the centres on its
 * normal (D. H. Ballard, Generalizing the Hough transform to detect arbitrary shapes, Pattern Recognition 13 (1981) 111–122),
 * and the radius around a centre is the one at which edges point outwards all round.
 */
final class CentreVote {

    /** Share of the pixels with the strongest gradients that vote. */
    private static final double VOTERS = 0.2;

    /** Least gradient of a voter, steps of brightness a pixel. */
    static final double LEAST_GRADIENT = 1.5;

    private static final int SECTORS = 48;
    private static final double OUTWARDS = 0.88;
    private static final int CENTRES = 4;

    private final GrayPicture picture;
    private final float[] gx;
    private final float[] gy;
    private final double threshold;
    private final double strongest;

    CentreVote(GrayPicture picture) {
        this.picture = picture;
        int width = picture.width();
        int height = picture.height();
        float[] v = picture.values();
        gx = new float[v.length];
        gy = new float[v.length];
        float[] sizes = new float[v.length];
        for (int y = 1; y < height - 1; y++) {
            for (int x = 1; x < width - 1; x++) {
                int i = y * width + x;
                gx[i] = (v[i + 1 - width]
                                + 2 * v[i + 1]
                                + v[i + 1 + width]
                                - v[i - 1 - width]
                                - 2 * v[i - 1]
                                - v[i - 1 + width])
                        / 8;
                gy[i] = (v[i + width - 1]
                                + 2 * v[i + width]
                                + v[i + width + 1]
                                - v[i - width - 1]
                                - 2 * v[i - width]
                                - v[i - width + 1])
                        / 8;
                sizes[i] = (float) Math.hypot(gx[i], gy[i]);
            }
        }
        Arrays.sort(sizes);
        threshold = Math.max(LEAST_GRADIENT, sizes[(int) ((1 - VOTERS) * (sizes.length - 1))]);
        strongest = sizes[(int) (0.99 * (sizes.length - 1))];
    }

    /** The gradient that one pixel in a hundred exceeds, steps of brightness a pixel. */
    double strongest() {
        return strongest;
    }

    /** A circle with the share of its circumference on which an edge points outwards. */
    record Candidate(Circle circle, double coverage) {}

    /** The best circle around each of the most voted centres, best first; none if there are no edges. */
    List<Candidate> circles(double least, double most) {
        int width = picture.width();
        int height = picture.height();
        float[] votes = new float[width * height];
        for (int y = 1; y < height - 1; y++) {
            for (int x = 1; x < width - 1; x++) {
                int i = y * width + x;
                double size = Math.hypot(gx[i], gy[i]);
                if (size < threshold) {
                    continue;
                }
                for (double r = least; r <= most; r++) {
                    int cx = (int) Math.round(x - r * gx[i] / size);
                    int cy = (int) Math.round(y - r * gy[i] / size);
                    if (cx < 0 || cy < 0 || cx >= width || cy >= height) {
                        break;
                    }
                    votes[cy * width + cx]++;
                }
            }
        }
        float[] smooth = boxed(boxed(votes, width, height), width, height);
        List<Candidate> found = new ArrayList<>();
        for (int k = 0; k < CENTRES; k++) {
            int best = 0;
            for (int i = 1; i < smooth.length; i++) {
                best = smooth[i] > smooth[best] ? i : best;
            }
            if (smooth[best] <= 0) {
                break;
            }
            int cx = best % width;
            int cy = best / width;
            found.add(around(cx, cy, least, most));
            int apart = (int) Math.max(3, least / 2);
            for (int y = Math.max(0, cy - apart); y < Math.min(height, cy + apart + 1); y++) {
                Arrays.fill(
                        smooth, y * width + Math.max(0, cx - apart), y * width + Math.min(width, cx + apart + 1), 0);
            }
        }
        found.sort((a, b) -> Double.compare(rank(b), rank(a)));
        return found;
    }

    /** Of two edges seen alike the outer one is the limbus, the inner one the pupil's. */
    private static double rank(Candidate c) {
        return c.coverage() * Math.pow(c.circle().radius(), 0.25);
    }

    private Candidate around(int cx, int cy, double least, double most) {
        int width = picture.width();
        int radii = (int) Math.ceil(most) + 4;
        boolean[][] seen = new boolean[radii][SECTORS];
        for (int y = 1; y < picture.height() - 1; y++) {
            for (int x = 1; x < width - 1; x++) {
                int i = y * width + x;
                double size = Math.hypot(gx[i], gy[i]);
                double r = Math.hypot(x - cx, y - cy);
                if (size < threshold || r < 1 || r > most + 2) {
                    continue;
                }
                if ((gx[i] * (x - cx) + gy[i] * (y - cy)) / (size * r) > OUTWARDS) {
                    double turn = Math.atan2(y - cy, x - cx) / (2 * Math.PI) + 0.5;
                    seen[(int) Math.round(r)][Math.min(SECTORS - 1, (int) (turn * SECTORS))] = true;
                }
            }
        }
        Candidate best = new Candidate(new Circle(cx, cy, Math.max(1, least)), 0);
        for (int r = (int) Math.ceil(least); r <= most; r++) {
            int band = Math.max(1, (int) Math.round(0.05 * r));
            int hit = 0;
            for (int s = 0; s < SECTORS; s++) {
                boolean any = false;
                for (int near = Math.max(1, r - band); near <= Math.min(radii - 1, r + band); near++) {
                    any |= seen[near][s];
                }
                hit += any ? 1 : 0;
            }
            Candidate now = new Candidate(new Circle(cx, cy, r), hit / (double) SECTORS);
            if (rank(now) > rank(best)) {
                best = now;
            }
        }
        return best;
    }

    private static float[] boxed(float[] values, int width, int height) {
        float[] out = new float[values.length];
        for (int y = 1; y < height - 1; y++) {
            for (int x = 1; x < width - 1; x++) {
                int i = y * width + x;
                float sum = 0;
                for (int row = i - width; row <= i + width; row += width) {
                    sum += values[row - 1] + values[row] + values[row + 1];
                }
                out[i] = sum / 9;
            }
        }
        return out;
    }
}
