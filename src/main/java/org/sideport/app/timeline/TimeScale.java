package org.sideport.app.timeline;

/**
 * Which part of the recording a width of the screen shows. Immutable.
 *
 * @param durationUs length of the recording, microseconds
 * @param startUs time at the left edge
 * @param usPerPixel microseconds that one pixel stands for, positive
 * @param width pixels
 */
public record TimeScale(long durationUs, double startUs, double usPerPixel, double width) {

    /** No closer than this: at 25 frames a second a frame is then 160 pixels wide, at 60 some 67. */
    static final double CLOSEST_US_PER_PIXEL = 250;

    private static final long[] STEPS_US = {
        10_000,
        20_000,
        50_000,
        100_000,
        200_000,
        500_000,
        1_000_000,
        2_000_000,
        5_000_000,
        10_000_000,
        15_000_000,
        30_000_000,
        60_000_000,
        120_000_000,
        300_000_000,
        600_000_000,
        1_200_000_000,
        1_800_000_000,
        3_600_000_000L
    };

    public TimeScale {
        if (durationUs < 0 || usPerPixel <= 0 || width < 0) {
            throw new IllegalArgumentException("not a scale: " + durationUs + ", " + usPerPixel + ", " + width);
        }
    }

    /** The whole recording over the whole width. */
    public static TimeScale whole(long durationUs, double width) {
        return new TimeScale(durationUs, 0, wholeUsPerPixel(durationUs, width), width);
    }

    private static double wholeUsPerPixel(long durationUs, double width) {
        return Math.max(1, durationUs) / Math.max(1, width);
    }

    public double x(long timeUs) {
        return (timeUs - startUs) / usPerPixel;
    }

    /** The time under a pixel, held within the recording. */
    public long timeAt(double x) {
        return Math.max(0, Math.min(durationUs, Math.round(startUs + x * usPerPixel)));
    }

    public double endUs() {
        return startUs + width * usPerPixel;
    }

    public boolean isWhole() {
        return startUs <= 0 && endUs() >= durationUs - usPerPixel;
    }

    /** Closer (factor above 1) or wider (below 1), with the time under {@code x} staying where it is. */
    public TimeScale zoomed(double factor, double x) {
        double widest = wholeUsPerPixel(durationUs, width);
        double scale = Math.min(widest, Math.max(Math.min(CLOSEST_US_PER_PIXEL, widest), usPerPixel / factor));
        double anchor = startUs + x * usPerPixel;
        return new TimeScale(durationUs, anchor - x * scale, scale, width).held();
    }

    public TimeScale moved(double pixels) {
        return new TimeScale(durationUs, startUs + pixels * usPerPixel, usPerPixel, width).held();
    }

    /** The same stretch in another width; the whole stays the whole. */
    public TimeScale resized(double newWidth) {
        return isWhole()
                ? whole(durationUs, newWidth)
                : new TimeScale(durationUs, startUs, usPerPixel, newWidth).held();
    }

    /** Turns a page when {@code timeUs} has left the screen. */
    public TimeScale following(long timeUs) {
        double x = x(timeUs);
        return isWhole() || (x >= 0 && x <= width)
                ? this
                : new TimeScale(durationUs, timeUs - width * 0.1 * usPerPixel, usPerPixel, width).held();
    }

    private TimeScale held() {
        double last = Math.max(0, durationUs - width * usPerPixel);
        return new TimeScale(durationUs, Math.max(0, Math.min(last, startUs)), usPerPixel, width);
    }

    /** The stretch from {@code fromUs} to {@code toUs} over the whole width, as close as is allowed. */
    public TimeScale over(double fromUs, double toUs) {
        double widest = wholeUsPerPixel(durationUs, width);
        double wanted = (toUs - fromUs) / Math.max(1, width);
        double scale = Math.min(widest, Math.max(Math.min(CLOSEST_US_PER_PIXEL, widest), wanted));
        double middle = (fromUs + toUs) / 2;
        return new TimeScale(durationUs, middle - width * scale / 2, scale, width).held();
    }

    /** The smallest round step of at least {@code minPixels}, microseconds. */
    public long tickStepUs(double minPixels) {
        for (long candidate : STEPS_US) {
            if (candidate / usPerPixel >= minPixels) {
                return candidate;
            }
        }
        return STEPS_US[STEPS_US.length - 1];
    }

    /** The first multiple of a step that is on the screen. */
    public long firstTickUs(long stepUs) {
        return (long) Math.ceil(startUs / stepUs) * stepUs;
    }
}
