package org.sideport.player;

/**
 * A copy of the moving picture that was on the screen at one moment.
 *
 * @param width pixels
 * @param height pixels
 * @param bgra blue, green, red, alpha of each pixel, row by row, {@code width * 4} bytes a row; not to be changed
 * @param display how many pictures had come from the player with this one
 * @param nanos when it came from the player, by {@link System#nanoTime}
 */
@SuppressWarnings("ArrayRecordComponent") // pixel data is compared by nobody and copied by nobody
public record LivePicture(int width, int height, byte[] bgra, long display, long nanos) {

    public LivePicture {
        if (width < 1 || height < 1 || bgra.length != width * height * 4) {
            throw new IllegalArgumentException("a picture of " + width + "x" + height + " has 4 bytes a pixel");
        }
    }
}
