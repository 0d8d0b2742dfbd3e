package org.sideport.media.text;

import java.util.List;

/** Of some seconds of pictures the edges that stand still: what is burnt in does not move with the eye. */
final class StillEdges {

    /** Least difference of brightness across an edge, of 219 steps. */
    private static final int CONTRAST = 36;

    /** A pixel that changes by no more than this stands still: the coder's noise is less. */
    private static final int STILL = 20;

    /** A pixel that changes by more than this moves. */
    private static final int MOVING = 10;

    /** So much of the picture must move, or standing still says nothing. */
    private static final double LIVELY = 0.05;

    private final int width;
    private final int height;
    private final boolean[] edges;
    private final boolean lively;

    private StillEdges(int width, int height, boolean[] edges, boolean lively) {
        this.width = width;
        this.height = height;
        this.edges = edges;
        this.lively = lively;
    }

    /** @param pictures brightness, row by row, of as many moments */
    static StillEdges of(List<byte[]> pictures, int width, int height) {
        boolean[] edges = new boolean[width * height];
        int moving = 0;
        int needed = Math.max(1, pictures.size() - pictures.size() / 4);
        for (int y = 1; y < height - 1; y++) {
            for (int x = 1; x < width - 1; x++) {
                int at = y * width + x;
                int least = 255;
                int most = 0;
                int count = 0;
                for (byte[] luma : pictures) {
                    int value = luma[at] & 0xFF;
                    least = Math.min(least, value);
                    most = Math.max(most, value);
                    int across = Math.abs((luma[at + 1] & 0xFF) - (luma[at - 1] & 0xFF));
                    int down = Math.abs((luma[at + width] & 0xFF) - (luma[at - width] & 0xFF));
                    count += Math.max(across, down) >= CONTRAST ? 1 : 0;
                }
                moving += most - least > MOVING ? 1 : 0;
                edges[at] = count >= needed && most - least <= STILL;
            }
        }
        return new StillEdges(width, height, edges, moving > LIVELY * width * height);
    }

    int width() {
        return width;
    }

    int height() {
        return height;
    }

    boolean at(int x, int y) {
        return edges[y * width + x];
    }

    /** True if the rest of the picture moves. */
    boolean isLively() {
        return lively;
    }
}
