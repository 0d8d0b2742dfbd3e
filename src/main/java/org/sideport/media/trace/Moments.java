package org.sideport.media.trace;

import org.sideport.media.TimeHole;
import org.sideport.model.MediaTime;

/** What each moment of a recording shows, and seconds against moments. */
final class Moments {

    /** Mean brightness of a black picture at most; video black is 16. */
    private static final double BLACK = 26;

    private static final double BLACK_CONTRAST = 8;
    /** Contrast of a picture of one colour at most, noise included. */
    private static final double UNIFORM_CONTRAST = 5;
    /** Mean blue difference of a blue picture at least, and its greatest contrast: there may be words on it. */
    private static final double BLUE = 165;

    private static final double BLUE_CONTRAST = 40;

    private final Traces traces;
    private final boolean[] black;
    private final boolean[] empty;
    private final boolean[] usable;
    private final boolean[] held;

    Moments(Traces traces) {
        this.traces = traces;
        int n = traces.size();
        black = new boolean[n];
        empty = new boolean[n];
        usable = new boolean[n];
        held = new boolean[n];
        float[] brightness = traces.of(TraceKind.BRIGHTNESS);
        float[] contrast = traces.of(TraceKind.CONTRAST);
        float[] blue = traces.of(TraceKind.BLUE);
        for (int i = 0; i < n; i++) {
            black[i] = brightness[i] <= BLACK && contrast[i] <= BLACK_CONTRAST;
            empty[i] =
                    !black[i] && (contrast[i] <= UNIFORM_CONTRAST || (blue[i] >= BLUE && contrast[i] <= BLUE_CONTRAST));
            usable[i] = !black[i] && !empty[i];
        }
        for (TimeHole hole : traces.holes()) {
            for (int i = index(hole.startUs()); i < n && traces.timeUs(i) < hole.endUs(); i++) {
                held[i] = true;
            }
        }
    }

    boolean[] black() {
        return black;
    }

    /** Of one colour other than black, or blue without a scene. */
    boolean[] empty() {
        return empty;
    }

    /** Neither black nor empty. */
    boolean[] usable() {
        return usable;
    }

    /** In a hole of the times, where the last picture stands because no other came. */
    boolean[] held() {
        return held;
    }

    /** The first moment at or after a time; {@link Traces#size()} at most. */
    int index(long us) {
        return (int) Math.max(0, Math.min(traces.size(), -Math.floorDiv(traces.startUs() - us, traces.stepUs())));
    }

    /** Moments in so many seconds, at least one. */
    int count(double seconds) {
        return (int) Math.max(1, Math.ceil(seconds * 1e6 / traces.stepUs() - 1e-9));
    }

    double seconds(int moments) {
        return moments * (traces.stepUs() / 1e6);
    }

    /** When a moment is; the recording's end for what lies beyond. */
    MediaTime time(int i) {
        return MediaTime.ofMicros(i >= traces.size() ? traces.durationUs() : traces.timeUs(i));
    }
}
