package org.sideport.media;

/**
 * A decoded picture, turned upright.
 *
 * @param width pixels
 * @param height pixels
 * @param displayAspect width to height as it is to be seen, which differs where pixels are not square
 * @param bgra blue, green, red, alpha (always 255) of each pixel, row by row, {@code width * 4} bytes a row; not to be
 *     changed
 */
@SuppressWarnings("ArrayRecordComponent") // pixel data is compared by nobody and copied by nobody
public record FramePicture(int width, int height, double displayAspect, byte[] bgra) {}
