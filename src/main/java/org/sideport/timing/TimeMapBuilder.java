package org.sideport.timing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.timing.TimeMap.Kind;
import org.sideport.timing.TimeMap.Piece;

/**
 * Lays the pieces of a {@link TimeMap} end to end. Between two matched phases each side has idle time and perhaps phases
 * that the other lacks; the idle time of both is stretched onto each other as if those phases were not there.
 */
final class TimeMapBuilder {

    private final List<Episode> left;
    private final List<Episode> right;
    private final List<Piece> pieces = new ArrayList<>();
    private final long leftLength;
    private final long rightLength;
    private long leftAt;
    private long rightAt;

    TimeMapBuilder(List<Episode> left, long leftLength, List<Episode> right, long rightLength) {
        this.left = inOrder(left);
        this.right = inOrder(right);
        this.leftLength = Math.max(leftLength, end(this.left));
        this.rightLength = Math.max(rightLength, end(this.right));
    }

    private static List<Episode> inOrder(List<Episode> episodes) {
        for (int i = 1; i < episodes.size(); i++) {
            if (episodes.get(i).startUs() < episodes.get(i - 1).endUs()) {
                throw new IllegalArgumentException("episodes must be in order and apart");
            }
        }
        return List.copyOf(episodes);
    }

    private static long end(List<Episode> episodes) {
        return episodes.isEmpty() ? 0 : episodes.get(episodes.size() - 1).endUs();
    }

    List<Piece> pieces() {
        int i = 0;
        int j = 0;
        for (EpisodeMatch.Pair pair : EpisodeMatch.of(left, right)) {
            Episode one = left.get(pair.left());
            Episode other = right.get(pair.right());
            between(left.subList(i, pair.left()), one.startUs(), right.subList(j, pair.right()), other.startUs());
            add(Kind.PHASE, one.label(), one.endUs(), other.endUs());
            i = pair.left() + 1;
            j = pair.right() + 1;
        }
        between(left.subList(i, left.size()), leftLength, right.subList(j, right.size()), rightLength);
        return pieces;
    }

    /** A phase of one side only, at a place of the idle time around it, 0 to 1. */
    private record Alone(double place, boolean ofLeft, Episode episode) {}

    private void between(List<Episode> leftAlone, long leftEnd, List<Episode> rightAlone, long rightEnd) {
        long leftIdle = idle(leftAlone, leftAt, leftEnd);
        long rightIdle = idle(rightAlone, rightAt, rightEnd);
        List<Alone> alone = new ArrayList<>();
        collect(alone, leftAlone, leftAt, leftIdle, true);
        collect(alone, rightAlone, rightAt, rightIdle, false);
        alone.sort(Comparator.comparingDouble(Alone::place));
        Idle idle = new Idle(leftIdle, rightIdle);
        for (Alone each : alone) {
            // to where its own side has its start; the other goes as far along its own idle time
            long toStart = each.episode().startUs() - (each.ofLeft() ? leftAt : rightAt);
            idle.upTo(each.place(), each.ofLeft(), toStart);
            if (each.ofLeft()) {
                add(Kind.LEFT_ONLY, each.episode().label(), each.episode().endUs(), rightAt);
            } else {
                add(
                        Kind.RIGHT_ONLY,
                        each.episode().label(),
                        leftAt,
                        each.episode().endUs());
            }
        }
        stretch(leftEnd, rightEnd);
    }

    private static long idle(List<Episode> alone, long from, long to) {
        return to - from - alone.stream().mapToLong(Episode::lengthUs).sum();
    }

    private static void collect(List<Alone> all, List<Episode> episodes, long from, long idle, boolean ofLeft) {
        long phases = 0;
        for (Episode episode : episodes) {
            long before = episode.startUs() - from - phases;
            all.add(new Alone(idle == 0 ? 0 : (double) before / idle, ofLeft, episode));
            phases += episode.lengthUs();
        }
    }

    /** How much of the idle time between two matched phases has been laid. */
    private final class Idle {
        private final long leftIdle;
        private final long rightIdle;
        private long leftDone;
        private long rightDone;

        Idle(long leftIdle, long rightIdle) {
            this.leftIdle = leftIdle;
            this.rightIdle = rightIdle;
        }

        void upTo(double place, boolean exactOnLeft, long exact) {
            long leftStep = exactOnLeft ? exact : Math.max(0, Math.round(place * leftIdle) - leftDone);
            long rightStep = exactOnLeft ? Math.max(0, Math.round(place * rightIdle) - rightDone) : exact;
            leftDone += leftStep;
            rightDone += rightStep;
            stretch(leftAt + leftStep, rightAt + rightStep);
        }
    }

    private void stretch(long leftEnd, long rightEnd) {
        boolean leftMoves = leftEnd > leftAt;
        boolean rightMoves = rightEnd > rightAt;
        if (leftMoves && rightMoves) {
            add(Kind.IDLE, null, leftEnd, rightEnd);
        } else if (leftMoves) {
            add(Kind.LEFT_ONLY, null, leftEnd, rightAt);
        } else if (rightMoves) {
            add(Kind.RIGHT_ONLY, null, leftAt, rightEnd);
        }
    }

    private void add(Kind kind, @Nullable String label, long leftEnd, long rightEnd) {
        pieces.add(new Piece(kind, label, leftAt, leftEnd, rightAt, rightEnd));
        leftAt = leftEnd;
        rightAt = rightEnd;
    }
}
