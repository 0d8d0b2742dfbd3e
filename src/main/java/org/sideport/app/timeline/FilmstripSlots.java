package org.sideport.app.timeline;

/**
 * Which moments a filmstrip shows: steps are a power of two times a base, so that panning and zooming ask for few new
 * pictures.
 */
final class FilmstripSlots {

    private static final long BASE_US = 1_000;

    private FilmstripSlots() {}

    /** From one picture to the next: the smallest step at which pictures {@code tileWidth} pixels wide do not overlap. */
    static long stepUs(double usPerPixel, double tileWidth) {
        long step = BASE_US;
        double needed = usPerPixel * tileWidth;
        while (step < needed) {
            step *= 2;
        }
        return step;
    }

    /** The last slot that starts at or before a time. */
    static long firstUs(double startUs, long stepUs) {
        return (long) Math.floor(Math.max(0, startUs) / stepUs) * stepUs;
    }
}
