package org.sideport.model;

import java.util.Objects;

/**
 * A place where a recording may show less time than went by: the recorder stood still, or something was cut out. A time
 * measured across it is then only a lower limit. Not a cut: a stretch in which the recorder's clock went on without
 * pictures, for its length is known.
 *
 * @param from last moment that is surely before it
 * @param to first moment that is surely after it; equal to {@code from} at the border of two files
 * @param evidence one sentence with what speaks for it
 * @param decidedBy code of the person who accepted or dismissed it; empty while it is proposed
 */
public record Cut(MediaTime from, MediaTime to, CutKind kind, CutState state, String evidence, String decidedBy) {

    public Cut {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(state, "state");
        if (to.isBefore(from)) {
            throw new IllegalArgumentException("a cut ends before it starts: " + from + " to " + to);
        }
        if (state == CutState.PROPOSED != decidedBy.isEmpty()) {
            throw new IllegalArgumentException(state + " by \"" + decidedBy + '"');
        }
    }

    /** A cut that nobody has looked at yet. */
    public static Cut proposed(MediaTime from, MediaTime to, CutKind kind, String evidence) {
        return new Cut(from, to, kind, CutState.PROPOSED, evidence, "");
    }

    public Cut decided(CutState newState, String person) {
        return new Cut(from, to, kind, newState, evidence, person);
    }

    /** True if a time from {@code start} to {@code end} may lack what is missing here. */
    public boolean isInside(MediaTime start, MediaTime end) {
        return start.isBefore(to) && end.isAfter(from);
    }

    /** True if both are of the same kind and may be the same place. */
    public boolean isSamePlaceAs(Cut other) {
        return kind == other.kind && !from.isAfter(other.to) && !other.from.isAfter(to);
    }
}
