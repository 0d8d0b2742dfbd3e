package org.sideport.media.track;

import org.sideport.media.SmallPicture;

/**
 * Brightness of a picture, row by row.
 *
 * @param values {@code width * height} numbers, 0 to 255; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // pixel data is compared by nobody and copied by nobody
public record GrayPicture(int width, int height, float[] values) {

    public GrayPicture {
        if (width < 1 || height < 1 || values.length != width * height) {
            throw new IllegalArgumentException(width + "x" + height + " pixels are needed");
        }
    }

    public static GrayPicture of(SmallPicture picture) {
        float[] values = new float[picture.width() * picture.height()];
        for (int i = 0; i < values.length; i++) {
            values[i] = picture.luma()[i] & 255;
        }
        return new GrayPicture(picture.width(), picture.height(), values);
    }

    /** Interpolated linearly; beyond the border as on the border. */
    double at(double x, double y) {
        double cx = Math.max(0, Math.min(width - 1.0, x));
        double cy = Math.max(0, Math.min(height - 1.0, y));
        int left = Math.min(width - 2, (int) cx);
        int top = Math.min(height - 2, (int) cy);
        if (left < 0 || top < 0) {
            return values[((int) cy) * width + ((int) cx)];
        }
        double fx = cx - left;
        double fy = cy - top;
        int i = top * width + left;
        return (1 - fy) * ((1 - fx) * values[i] + fx * values[i + 1])
                + fy * ((1 - fx) * values[i + width] + fx * values[i + width + 1]);
    }

    boolean holds(double x, double y, double margin) {
        return x >= margin && y >= margin && x <= width - 1 - margin && y <= height - 1 - margin;
    }

    /** Smoothed by the binomial mask 1 4 6 4 1 and every second pixel taken (Burt & Adelson 1983). */
    GrayPicture half() {
        int newWidth = (width + 1) / 2;
        int newHeight = (height + 1) / 2;
        float[] across = new float[newWidth * height];
        for (int y = 0; y < height; y++) {
            int row = y * width;
            for (int x = 0; x < newWidth; x++) {
                int at = 2 * x;
                across[y * newWidth + x] = (values[row + mirrored(at - 2, width)]
                                + values[row + mirrored(at + 2, width)]
                                + 4 * (values[row + mirrored(at - 1, width)] + values[row + mirrored(at + 1, width)])
                                + 6 * values[row + at])
                        / 16;
            }
        }
        float[] small = new float[newWidth * newHeight];
        for (int y = 0; y < newHeight; y++) {
            int above2 = mirrored(2 * y - 2, height) * newWidth;
            int above = mirrored(2 * y - 1, height) * newWidth;
            int here = 2 * y * newWidth;
            int below = mirrored(2 * y + 1, height) * newWidth;
            int below2 = mirrored(2 * y + 2, height) * newWidth;
            for (int x = 0; x < newWidth; x++) {
                small[y * newWidth + x] = (across[above2 + x]
                                + across[below2 + x]
                                + 4 * (across[above + x] + across[below + x])
                                + 6 * across[here + x])
                        / 16;
            }
        }
        return new GrayPicture(newWidth, newHeight, small);
    }

    /** The border pixel itself is not repeated. */
    private static int mirrored(int i, int size) {
        int inside = i < 0 ? -i : i >= size ? 2 * (size - 1) - i : i;
        return Math.max(0, Math.min(size - 1, inside));
    }
}
