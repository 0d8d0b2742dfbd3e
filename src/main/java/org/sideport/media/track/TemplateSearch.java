package org.sideport.media.track;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.geometry.Point;

/** Where in a picture a small patch is found again, by normalised correlation, to a part of a pixel. */
final class TemplateSearch {

    private TemplateSearch() {}

    /**
     * @param template {@code 2 * radius + 1} pixels square, row by row
     * @param range how far from {@code around} to look, pixels each way
     * @return the best place; {@code null} if the patch or all of the area is even
     */
    static @Nullable Point best(GrayPicture picture, double[] template, int radius, Point around, int range) {
        int side = 2 * radius + 1;
        float[] centred = new float[template.length];
        double mean = 0;
        for (double v : template) {
            mean += v;
        }
        mean /= template.length;
        double energy = 0;
        for (int i = 0; i < template.length; i++) {
            centred[i] = (float) (template[i] - mean);
            energy += centred[i] * centred[i];
        }
        int cx = (int) Math.round(around.x());
        int cy = (int) Math.round(around.y());
        int size = 2 * range + 1;
        float[] scores = new float[size * size];
        int best = -1;
        int width = picture.width();
        float[] values = picture.values();
        for (int v = 0; v < size; v++) {
            for (int u = 0; u < size; u++) {
                int left = cx + u - range - radius;
                int top = cy + v - range - radius;
                if (left < 0 || top < 0 || left + side > width || top + side > picture.height()) {
                    continue;
                }
                float product = 0;
                float sum = 0;
                float squares = 0;
                for (int row = 0; row < side; row++) {
                    int from = (top + row) * width + left;
                    int at = row * side;
                    for (int column = 0; column < side; column++) {
                        float value = values[from + column];
                        product += centred[at + column] * value;
                        sum += value;
                        squares += value * value;
                    }
                }
                double spread = squares - (double) sum * sum / template.length;
                int i = v * size + u;
                scores[i] = spread > 1 && energy > 1 ? (float) (product / Math.sqrt(spread * energy)) : 0;
                best = scores[i] > (best < 0 ? 0 : scores[best]) ? i : best;
            }
        }
        if (best < 0) {
            return null;
        }
        int u = best % size;
        int v = best / size;
        double dx = u > 0 && u < size - 1 ? vertex(scores[best - 1], scores[best], scores[best + 1]) : 0;
        double dy = v > 0 && v < size - 1 ? vertex(scores[best - size], scores[best], scores[best + size]) : 0;
        return new Point(cx + u - range + dx, cy + v - range + dy);
    }

    /** Of the parabola through three even values, from the middle one. */
    private static double vertex(double before, double at, double after) {
        double bend = before - 2 * at + after;
        return bend < 0 ? Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend))) : 0;
    }
}
