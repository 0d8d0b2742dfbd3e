package org.sideport.app.picture;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameRef;
import org.sideport.media.PictureMatcher;
import org.sideport.model.MediaTime;
import org.sideport.player.LivePicture;
import org.sideport.player.PlayerState;

/**
 * Looks for the exact frame that a moving picture was, among the frames around the rough time that the player gave. Of
 * pictures that look the same, as in a still scene, it takes the one nearest to that time. Works in small pieces, so
 * that other work for the frames can come between. Not thread-safe: one piece after the other.
 */
final class FrameSearch {

    /** How far the player's clock strays at normal speed, microseconds; more at higher rates. */
    private static final long STRAYS_US = 600_000;

    /** Frames looked at in one piece of work. */
    private static final int PIECE = 4;

    /** Differences this close are the same picture, levels of 0 to 255. */
    private static final double SAME = 0.01;

    /** A picture farther than this from every frame is none of them. */
    private static final double OTHER = 8;

    /** How often the window is widened where the best match lies at its edge. */
    private static final int WIDENINGS = 2;

    private record Candidate(FrameRef frame, double difference) {}

    private final PictureMatcher matcher;
    private final MediaTime around;
    private final long reachUs;
    private final List<Candidate> seen = new ArrayList<>();
    private int widened;
    private long from = -1;
    private long to = -1;
    private long next = -1;
    private boolean done;
    private @Nullable FrameRef found;

    FrameSearch(LivePicture live, PlayerState state) {
        matcher = new PictureMatcher(live.width(), live.height(), live.bgra());
        around = state.time();
        reachUs = (long) (STRAYS_US * Math.max(1.0, state.rate()));
    }

    /** The frame of the player's rough time. */
    FrameRef rough(FrameSource source) {
        return source.frameAt(around);
    }

    /** Looks at all there is to look at; the rough time's frame if none matches. */
    FrameRef all(FrameSource source) {
        while (piece(source)) {
            // goes on until done
        }
        return found == null ? rough(source) : found;
    }

    /** The frame; {@code null} while not done, and where nothing matches. */
    @Nullable
    FrameRef found() {
        return found;
    }

    /** Looks at a few frames. @return true if there is more to do */
    boolean piece(FrameSource source) {
        if (done) {
            return false;
        }
        if (from < 0) {
            from = numberAt(source, -reachUs);
            to = numberAt(source, reachUs);
            next = from;
        }
        for (int i = 0; i < PIECE && next <= to; i++) {
            FrameRef frame = source.frame(next++);
            seen.add(new Candidate(frame, matcher.difference(source.whole(frame))));
        }
        if (next <= to) {
            return true;
        }
        return settle(source);
    }

    private boolean settle(FrameSource source) {
        double least = seen.stream().mapToDouble(Candidate::difference).min().orElse(Double.MAX_VALUE);
        Candidate best = null;
        for (Candidate each : seen) {
            if (each.difference() <= least + SAME && (best == null || distance(each) < distance(best))) {
                best = each;
            }
        }
        if (best == null) {
            done = true;
            return false;
        }
        long number = best.frame().number();
        if (widened < WIDENINGS && (number == from || number == to || least > OTHER) && widen(source)) {
            return true;
        }
        found = least > OTHER ? null : best.frame();
        done = true;
        return false;
    }

    /** The frames before the window first, then those after it. */
    private boolean widen(FrameSource source) {
        widened++;
        long wider = reachUs * (1 + widened);
        long newFrom = numberAt(source, -wider);
        long newTo = numberAt(source, wider);
        if (newFrom == from && newTo == to) {
            return false;
        }
        for (long number = newFrom; number < from; number++) {
            FrameRef frame = source.frame(number);
            seen.add(new Candidate(frame, matcher.difference(source.whole(frame))));
        }
        from = newFrom;
        next = to + 1;
        to = newTo;
        return true;
    }

    private long numberAt(FrameSource source, long byUs) {
        return source.frameAt(MediaTime.ofMicros(Math.max(0, around.micros() + byUs)))
                .number();
    }

    /** From the rough time to the time during which the frame is shown, microseconds. */
    private long distance(Candidate each) {
        if (around.isBefore(each.frame().start())) {
            return each.frame().start().micros() - around.micros();
        }
        return Math.max(0, around.micros() - each.frame().end().micros() + 1);
    }
}
