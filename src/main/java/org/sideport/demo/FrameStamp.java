package org.sideport.demo;

import java.util.OptionalInt;

/**
 * A frame's number, burned into its picture as black and white blocks along the bottom edge, so that a test can tell
 * which frame a decoder really gave.
 *
 * <p>Sixteen bits, least significant first from the left; white is 1. A block is {@code width / 40} wide and
 * {@code height / 48} high (at least 8 each), big enough to come through strong compression.
 */
public final class FrameStamp {

    public static final int BITS = 16;

    /** Largest number that fits, plus one. */
    public static final int LIMIT = 1 << BITS;

    private static final int WHITE = 0xFFF0F0F0;
    private static final int BLACK = 0xFF101010;

    /** Luma between these two is neither black nor white. */
    private static final int DARK = 90;

    private static final int BRIGHT = 165;

    private FrameStamp() {}

    static int blockWidth(int width) {
        return Math.max(8, width / 40);
    }

    static int blockHeight(int height) {
        return Math.max(8, height / 48);
    }

    /** Paints {@code number} into a picture of {@code 0xAARRGGBB} integers. */
    public static void write(int[] argb, int width, int height, int number) {
        if (number < 0 || number >= LIMIT) {
            throw new IllegalArgumentException("a stamp holds 0 to " + (LIMIT - 1) + ": " + number);
        }
        int blockWidth = blockWidth(width);
        int top = height - blockHeight(height);
        for (int bit = 0; bit < BITS; bit++) {
            int colour = (number >> bit & 1) == 1 ? WHITE : BLACK;
            for (int y = top; y < height; y++) {
                int from = y * width + bit * blockWidth;
                java.util.Arrays.fill(argb, from, from + blockWidth, colour);
            }
        }
    }

    /**
     * Reads the number back.
     *
     * @param argb {@code 0xAARRGGBB} integers, row by row, such as BGRA bytes taken as little-endian integers
     * @return empty where a block is neither black nor white: no stamp, or a blend of two frames
     */
    public static OptionalInt read(int[] argb, int width, int height) {
        int blockWidth = blockWidth(width);
        int blockHeight = blockHeight(height);
        int number = 0;
        for (int bit = 0; bit < BITS; bit++) {
            double luma = meanLuma(argb, width, bit * blockWidth, height - blockHeight, blockWidth, blockHeight);
            if (luma > BRIGHT) {
                number |= 1 << bit;
            } else if (luma > DARK) {
                return OptionalInt.empty();
            }
        }
        return OptionalInt.of(number);
    }

    /** Of the middle half of a block: its edges bleed into its neighbours. */
    private static double meanLuma(int[] argb, int width, int left, int top, int blockWidth, int blockHeight) {
        double sum = 0;
        int count = 0;
        for (int y = top + blockHeight / 4; y < top + blockHeight - blockHeight / 4; y++) {
            for (int x = left + blockWidth / 4; x < left + blockWidth - blockWidth / 4; x++) {
                int pixel = argb[y * width + x];
                sum += 0.299 * (pixel >> 16 & 0xFF) + 0.587 * (pixel >> 8 & 0xFF) + 0.114 * (pixel & 0xFF);
                count++;
            }
        }
        return sum / count;
    }
}
