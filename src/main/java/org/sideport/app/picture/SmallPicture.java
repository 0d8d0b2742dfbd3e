package org.sideport.app.picture;

import javafx.scene.image.Image;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import org.sideport.media.FramePicture;

/** A picture made small, in blue, green, red, alpha. */
@SuppressWarnings("ArrayRecordComponent") // pixel data is compared by nobody
public record SmallPicture(int width, int height, byte[] bgra) {

    /**
     * The mean of every pixel's share of the picture.
     *
     * @param height wanted, pixels; never more than the picture's own
     */
    public static SmallPicture of(FramePicture picture, int height) {
        int rows = Math.max(1, Math.min(height, picture.height()));
        int columns = Math.max(1, Math.min(picture.width(), (int) Math.round(rows * picture.displayAspect())));
        byte[] out = new byte[rows * columns * 4];
        for (int y = 0; y < rows; y++) {
            int top = y * picture.height() / rows;
            int bottom = Math.max(top + 1, (y + 1) * picture.height() / rows);
            for (int x = 0; x < columns; x++) {
                int left = x * picture.width() / columns;
                int right = Math.max(left + 1, (x + 1) * picture.width() / columns);
                for (int channel = 0; channel < 4; channel++) {
                    out[(y * columns + x) * 4 + channel] = mean(picture, left, right, top, bottom, channel);
                }
            }
        }
        return new SmallPicture(columns, rows, out);
    }

    private static byte mean(FramePicture picture, int left, int right, int top, int bottom, int channel) {
        long sum = 0;
        for (int y = top; y < bottom; y++) {
            int row = y * picture.width() * 4 + channel;
            for (int x = left; x < right; x++) {
                sum += picture.bgra()[row + x * 4] & 0xff;
            }
        }
        return (byte) (sum / ((long) (right - left) * (bottom - top)));
    }

    /** For the screen. */
    public Image image() {
        WritableImage image = new WritableImage(width, height);
        image.getPixelWriter().setPixels(0, 0, width, height, PixelFormat.getByteBgraInstance(), bgra, 0, width * 4);
        return image;
    }
}
