package org.sideport.media.trace;

import org.sideport.media.SmallPicture;

/** What one picture tells by itself. */
public final class PictureMeasures {

    /** Below this greatest colour value (of 255) a pixel is too dark for its saturation to mean anything. */
    private static final double DARK = 40;

    private PictureMeasures() {}

    /** Mean of bytes without sign. */
    public static double mean(byte[] values) {
        long sum = 0;
        for (byte value : values) {
            sum += value & 255;
        }
        return (double) sum / values.length;
    }

    /** Standard deviation (divided by the number of pixels) of bytes without sign. */
    public static double standardDeviation(byte[] values) {
        long sum = 0;
        long squares = 0;
        for (byte value : values) {
            int v = value & 255;
            sum += v;
            squares += (long) v * v;
        }
        double mean = (double) sum / values.length;
        return Math.sqrt(Math.max(0, (double) squares / values.length - mean * mean));
    }

    /** Mean absolute difference of two pictures' bytes without sign. */
    public static double meanDifference(byte[] a, byte[] b) {
        long sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += Math.abs((a[i] & 255) - (b[i] & 255));
        }
        return (double) sum / a.length;
    }

    /**
     * Mean over the ellipse that fills the middle half of width and height of the saturation {@code (max − min) / max}
     * (A. R. Smith, Color gamut transform pairs, SIGGRAPH 1978) of pixels where red is the greatest; others and dark
     * ones count 0. Colours are taken back by ITU-R BT.601, which is near enough for BT.709 recordings.
     *
     * @return 0 to 1
     */
    public static double redSaturation(SmallPicture picture) {
        double sum = 0;
        int pixels = 0;
        double radiusX = picture.width() / 4.0;
        double radiusY = picture.height() / 4.0;
        for (int y = 0; y < picture.height(); y++) {
            double dy = (y + 0.5 - picture.height() / 2.0) / radiusY;
            for (int x = 0; x < picture.width(); x++) {
                double dx = (x + 0.5 - picture.width() / 2.0) / radiusX;
                if (dx * dx + dy * dy <= 1) {
                    pixels++;
                    sum += redSaturation(picture, y * picture.width() + x);
                }
            }
        }
        return pixels == 0 ? 0 : sum / pixels;
    }

    private static double redSaturation(SmallPicture picture, int at) {
        double y = 255.0 / 219 * ((picture.luma()[at] & 255) - 16);
        double cb = 255.0 / 224 * ((picture.cb()[at] & 255) - 128);
        double cr = 255.0 / 224 * ((picture.cr()[at] & 255) - 128);
        // ITU-R BT.601: Kr = 0.299, Kb = 0.114
        double red = clip(y + 1.402 * cr);
        double green = clip(y - 0.344136 * cb - 0.714136 * cr);
        double blue = clip(y + 1.772 * cb);
        if (red < DARK || red < green || red < blue) {
            return 0;
        }
        return (red - Math.min(green, blue)) / red;
    }

    private static double clip(double value) {
        return Math.max(0, Math.min(255, value));
    }
}
