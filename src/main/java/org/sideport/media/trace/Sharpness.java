package org.sideport.media.trace;

/**
 * Focus measures of S. Pertuz, D. Puig, M. A. Garcia, "Analysis of focus measure operators for shape-from-focus", Pattern
 * Recognition 46 (2013) 1415–1432: LAP4 (variance of the Laplacian) and GRA6 (Tenengrad). Both grow with fine detail; they compare pictures of
 * the same scene and mean nothing across recordings. The outermost pixels are left out.
 */
public final class Sharpness {

    private Sharpness() {}

    /**
     * Mean over the pixels of {@code Gx² + Gy²}, with the Sobel masks (1 2 1 by −1 0 1, not divided).
     *
     * @param luma {@code width * height} bytes without sign
     * @return 0 for a picture without an inside
     */
    public static double tenengrad(byte[] luma, int width, int height) {
        long sum = 0;
        for (int y = 1; y < height - 1; y++) {
            for (int x = 1; x < width - 1; x++) {
                int at = y * width + x;
                int nw = luma[at - width - 1] & 255;
                int n = luma[at - width] & 255;
                int ne = luma[at - width + 1] & 255;
                int w = luma[at - 1] & 255;
                int e = luma[at + 1] & 255;
                int sw = luma[at + width - 1] & 255;
                int s = luma[at + width] & 255;
                int se = luma[at + width + 1] & 255;
                int gx = ne + 2 * e + se - nw - 2 * w - sw;
                int gy = sw + 2 * s + se - nw - 2 * n - ne;
                sum += (long) gx * gx + (long) gy * gy;
            }
        }
        long inside = inside(width, height);
        return inside == 0 ? 0 : (double) sum / inside;
    }

    /**
     * Variance over the pixels (divided by their number) of the Laplacian, mask 0 1 0 / 1 −4 1 / 0 1 0.
     *
     * @param luma {@code width * height} bytes without sign
     * @return 0 for a picture without an inside
     */
    public static double laplacianVariance(byte[] luma, int width, int height) {
        long sum = 0;
        long squares = 0;
        for (int y = 1; y < height - 1; y++) {
            for (int x = 1; x < width - 1; x++) {
                int at = y * width + x;
                int value = (luma[at - width] & 255)
                        + (luma[at - 1] & 255)
                        + (luma[at + 1] & 255)
                        + (luma[at + width] & 255)
                        - 4 * (luma[at] & 255);
                sum += value;
                squares += (long) value * value;
            }
        }
        long inside = inside(width, height);
        if (inside == 0) {
            return 0;
        }
        double mean = (double) sum / inside;
        return (double) squares / inside - mean * mean;
    }

    private static long inside(int width, int height) {
        return Math.max(0, width - 2L) * Math.max(0, height - 2L);
    }
}
