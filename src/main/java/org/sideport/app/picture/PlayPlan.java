package org.sideport.app.picture;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;

/**
 * What playback does other than run on: go round in one stretch, or jump over what lies between others.
 *
 * @param loop the stretch that is played again and again; {@code null} for none. It goes before {@code only}
 * @param only the stretches that are played, in the order of time and apart from one another; {@code null} for everything
 */
public record PlayPlan(@Nullable Stretch loop, @Nullable List<Stretch> only) {

    /** Everything, once. */
    public static final PlayPlan ALL = new PlayPlan(null, null);

    /** A jump costs the player a second or so: less than this is played, microseconds of the recording. */
    static final long WORTH_A_JUMP_US = 2_000_000;

    /** @param end exclusive, after {@code start} */
    public record Stretch(MediaTime start, MediaTime end) {
        public Stretch {
            if (!start.isBefore(end)) {
                throw new IllegalArgumentException("a stretch from " + start + " to " + end + " has no length");
            }
        }
    }

    /** What to do at a moment. */
    public sealed interface Move {
        record GoOn() implements Move {}

        record JumpTo(MediaTime to) implements Move {}

        /** There is nothing more to play. */
        record Stop(MediaTime at) implements Move {}
    }

    public PlayPlan {
        if (only != null) {
            only = List.copyOf(only);
            for (int i = 1; i < only.size(); i++) {
                if (only.get(i).start().isBefore(only.get(i - 1).end())) {
                    throw new IllegalArgumentException("stretches must be in order and apart");
                }
            }
        }
    }

    Move at(MediaTime now) {
        if (loop != null) {
            boolean inside = !now.isBefore(loop.start()) && now.isBefore(loop.end());
            return inside ? new Move.GoOn() : new Move.JumpTo(loop.start());
        }
        if (only == null || only.isEmpty()) {
            return new Move.GoOn();
        }
        for (Stretch stretch : only) {
            if (now.isBefore(stretch.start())) {
                boolean worth = stretch.start().micros() - now.micros() >= WORTH_A_JUMP_US;
                return worth ? new Move.JumpTo(stretch.start()) : new Move.GoOn();
            }
            if (now.isBefore(stretch.end())) {
                return new Move.GoOn();
            }
        }
        return new Move.Stop(only.get(only.size() - 1).end());
    }
}
