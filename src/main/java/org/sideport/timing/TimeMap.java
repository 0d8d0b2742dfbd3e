package org.sideport.timing;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;

/**
 * Which moment of one recording belongs to which of another: monotone, and linear in each of its pieces. Immutable.
 *
 * <p>The pieces run without a gap from the start to the end of both recordings. A phase that was matched with one of the
 * other side is stretched onto it; idle time between is stretched onto idle time. What one side alone has, it has while
 * the other stands still: there the map holds in one direction and jumps in the other.
 */
public final class TimeMap {

    /** What a piece is. */
    public enum Kind {
        /** A phase that both sides have. */
        PHASE,
        /** Time without a phase on both sides. */
        IDLE,
        /** Something that the right side lacks: it stands still meanwhile. */
        LEFT_ONLY,
        /** Something that the left side lacks: going by the left, the right jumps over it. */
        RIGHT_ONLY
    }

    /**
     * The stretch {@code [leftStartUs, leftEndUs)} of the left and the one of the right that belongs to it.
     *
     * @param label id of the phase or step; {@code null} for time without one
     */
    public record Piece(
            Kind kind, @Nullable String label, long leftStartUs, long leftEndUs, long rightStartUs, long rightEndUs) {

        public Piece {
            if (leftEndUs < leftStartUs || rightEndUs < rightStartUs) {
                throw new IllegalArgumentException("a piece cannot run backwards");
            }
        }

        Piece inverse() {
            Kind turned =
                    switch (kind) {
                        case LEFT_ONLY -> Kind.RIGHT_ONLY;
                        case RIGHT_ONLY -> Kind.LEFT_ONLY;
                        case PHASE, IDLE -> kind;
                    };
            return new Piece(turned, label, rightStartUs, rightEndUs, leftStartUs, leftEndUs);
        }

        /** Microseconds of the right that go by in one microsecond of the left; 0 while the right stands still. */
        public double rate() {
            return leftEndUs == leftStartUs
                    ? Double.POSITIVE_INFINITY
                    : (double) (rightEndUs - rightStartUs) / (leftEndUs - leftStartUs);
        }

        private long toRight(long leftUs) {
            if (leftUs >= leftEndUs) {
                return rightEndUs;
            }
            double share = (double) (leftUs - leftStartUs) * (rightEndUs - rightStartUs);
            return rightStartUs + Math.round(share / (leftEndUs - leftStartUs));
        }
    }

    /**
     * A moment of the other side.
     *
     * @param time the moment
     * @param piece where it lies
     * @param skipped what the other side jumped over when this piece began, in order
     */
    public record Place(MediaTime time, Piece piece, List<Piece> skipped) {
        public Place {
            skipped = List.copyOf(skipped);
        }
    }

    private final List<Piece> pieces;

    private TimeMap(List<Piece> pieces) {
        this.pieces = List.copyOf(pieces);
    }

    /**
     * Phase by phase. Repeats are matched in order; of phases done in another order, those are matched that leave the
     * most time in common.
     *
     * @param left in the order of time, without overlap; likewise {@code right}
     * @param leftEnd the end of the left recording, or of its last episode where that lies later
     */
    public static TimeMap aligned(List<Episode> left, MediaTime leftEnd, List<Episode> right, MediaTime rightEnd) {
        return new TimeMap(new TimeMapBuilder(left, leftEnd.micros(), right, rightEnd.micros()).pieces());
    }

    /** Both run from their start at the same pace. */
    public static TimeMap sameClock(MediaTime leftEnd, MediaTime rightEnd) {
        long left = leftEnd.micros();
        long right = rightEnd.micros();
        long both = Math.min(left, right);
        List<Piece> pieces = new ArrayList<>();
        if (both > 0) {
            pieces.add(new Piece(Kind.IDLE, null, 0, both, 0, both));
        }
        if (left > both) {
            pieces.add(new Piece(Kind.LEFT_ONLY, null, both, left, both, both));
        } else if (right > both) {
            pieces.add(new Piece(Kind.RIGHT_ONLY, null, both, both, both, right));
        }
        return new TimeMap(pieces);
    }

    /** The same seen from the right. */
    public TimeMap inverse() {
        return new TimeMap(pieces.stream().map(Piece::inverse).toList());
    }

    /** From the start to the end of both. */
    public List<Piece> pieces() {
        return pieces;
    }

    /** How many phases were matched. */
    public int matched() {
        return (int) pieces.stream().filter(p -> p.kind() == Kind.PHASE).count();
    }

    /**
     * Where the right is when the left is at {@code left}. At a jump it is where the jump leads to; beyond the end, at the
     * end.
     */
    public Place toRight(MediaTime left) {
        List<Piece> skipped = new ArrayList<>();
        Piece last = null;
        for (Piece piece : pieces) {
            last = piece;
            if (piece.kind() == Kind.RIGHT_ONLY) {
                skipped.add(piece);
            } else if (left.micros() < piece.leftEndUs()) {
                return new Place(MediaTime.ofMicros(piece.toRight(left.micros())), piece, skipped);
            } else {
                skipped.clear();
            }
        }
        if (last == null) {
            return new Place(MediaTime.ZERO, new Piece(Kind.IDLE, null, 0, 0, 0, 0), List.of());
        }
        return new Place(MediaTime.ofMicros(last.rightEndUs()), last, List.of());
    }

    /** Where the left is when the right is at {@code right}; as {@link #toRight} otherwise. */
    public Place toLeft(MediaTime right) {
        return inverse().toRight(right);
    }
}
