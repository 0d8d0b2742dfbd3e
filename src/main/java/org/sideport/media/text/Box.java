package org.sideport.media.text;

/** A rectangle of pixels; right and bottom are exclusive. */
record Box(int left, int top, int right, int bottom) {

    int width() {
        return right - left;
    }

    int height() {
        return bottom - top;
    }

    Box with(Box other) {
        return new Box(
                Math.min(left, other.left),
                Math.min(top, other.top),
                Math.max(right, other.right),
                Math.max(bottom, other.bottom));
    }

    /** Side by side on one line: most of the lower one's height in common, and no wide gap. */
    boolean sameLine(Box other) {
        int common = Math.min(bottom, other.bottom) - Math.max(top, other.top);
        int least = Math.min(height(), other.height());
        int most = Math.max(height(), other.height());
        int gap = Math.max(left, other.left) - Math.min(right, other.right);
        return common >= 0.5 * least && most <= 3 * least && gap <= 1.5 * most;
    }

    /** Shared area as a part of both together. */
    double overlap(Box other) {
        long wide = Math.min(right, other.right) - (long) Math.max(left, other.left);
        long high = Math.min(bottom, other.bottom) - (long) Math.max(top, other.top);
        if (wide <= 0 || high <= 0) {
            return 0;
        }
        double common = (double) wide * high;
        return common / ((double) width() * height() + (double) other.width() * other.height() - common);
    }

    Box grown(int by, int mostRight, int mostBottom) {
        return new Box(
                Math.max(0, left - by),
                Math.max(0, top - by),
                Math.min(mostRight, right + by),
                Math.min(mostBottom, bottom + by));
    }
}
