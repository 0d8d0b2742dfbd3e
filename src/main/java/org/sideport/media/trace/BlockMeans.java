package org.sideport.media.trace;

import org.sideport.media.SmallPicture;

/** Change of the mean brightness of blocks: noise averages out in it, and what moves on its own stays. */
final class BlockMeans {

    private static final int BLOCK = 8;
    private static final double MARGIN = 0.1;
    private static final double MOST = 24;

    private BlockMeans() {}

    /**
     * Mean over the blocks of the inner four fifths of width and height of the least change of mean brightness to the
     * places within one pixel of the displaced block, each less the median change of all blocks, which is that of the
     * light, and each at most {@value #MOST}, so that a few blocks do not decide alone. Clocks and names that recorders
     * burn in stand in the border.
     *
     * @param moveX what is at x now was at {@code x + moveX}; likewise {@code moveY}
     */
    static double change(SmallPicture before, SmallPicture now, int moveX, int moveY) {
        int columns = now.width() / BLOCK;
        int rows = now.height() / BLOCK;
        int[] a = sums(before);
        int[] b = sums(now);
        double[] plain = new double[columns * rows];
        for (int i = 0; i < plain.length; i++) {
            int x = i % columns * BLOCK;
            int y = i / columns * BLOCK;
            plain[i] = mean(b, now.width(), x, y) - moved(a, now, x + moveX, y + moveY);
        }
        double light = Numbers.median(plain);
        double sum = 0;
        int inner = 0;
        for (int i = 0; i < plain.length; i++) {
            int x = i % columns * BLOCK;
            int y = i / columns * BLOCK;
            if (isBorder(x, now.width()) || isBorder(y, now.height())) {
                continue;
            }
            double mean = mean(b, now.width(), x, y) - light;
            double least = Double.MAX_VALUE;
            for (int dy = -1; dy <= 1; dy++) {
                for (int dx = -1; dx <= 1; dx++) {
                    least = Math.min(least, Math.abs(mean - moved(a, now, x + moveX + dx, y + moveY + dy)));
                }
            }
            sum += Math.min(MOST, least);
            inner++;
        }
        return inner == 0 ? 0 : sum / inner;
    }

    private static boolean isBorder(int from, int size) {
        return from < MARGIN * size || from + BLOCK > (1 - MARGIN) * size;
    }

    /** Mean of a block of the picture before; what would lie outside is taken at the edge. */
    private static double moved(int[] sums, SmallPicture picture, int x, int y) {
        int insideX = Math.max(0, Math.min(picture.width() - BLOCK, x));
        int insideY = Math.max(0, Math.min(picture.height() - BLOCK, y));
        return mean(sums, picture.width(), insideX, insideY);
    }

    private static double mean(int[] sums, int width, int x, int y) {
        int stride = width + 1;
        int sum = sums[(y + BLOCK) * stride + x + BLOCK]
                - sums[y * stride + x + BLOCK]
                - sums[(y + BLOCK) * stride + x]
                + sums[y * stride + x];
        return (double) sum / (BLOCK * BLOCK);
    }

    /** Sums of all brightness above and left of each corner. */
    private static int[] sums(SmallPicture picture) {
        int stride = picture.width() + 1;
        int[] sums = new int[stride * (picture.height() + 1)];
        for (int y = 0; y < picture.height(); y++) {
            int row = 0;
            for (int x = 0; x < picture.width(); x++) {
                row += picture.luma()[y * picture.width() + x] & 255;
                sums[(y + 1) * stride + x + 1] = sums[y * stride + x + 1] + row;
            }
        }
        return sums;
    }
}
