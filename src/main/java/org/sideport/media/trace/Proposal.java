package org.sideport.media.trace;

import java.util.Locale;
import org.sideport.model.MediaTime;

/**
 * A suggestion for whoever tags the recording. It never becomes a tag by itself.
 *
 * @param start of the idle stretch, or the boundary
 * @param end of the idle stretch; the boundary again for a boundary
 * @param evidence one sentence with the figures behind it
 * @param confidence 0 to 1, how clear the figures are; no probability
 */
public record Proposal(Kind kind, MediaTime start, MediaTime end, String evidence, double confidence) {

    /** What is suggested. */
    public enum Kind {
        /** little moves: rest, or work too quiet to tell from it, as a slow tear of the capsule can be */
        IDLE,
        /** the traces change their level here */
        BOUNDARY;

        /** As written in JSON: lower case. */
        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    public Proposal {
        if (end.isBefore(start) || (kind == Kind.BOUNDARY && !end.equals(start))) {
            throw new IllegalArgumentException(kind + " from " + start + " to " + end);
        }
        if (!(confidence >= 0 && confidence <= 1) || evidence.isBlank()) {
            throw new IllegalArgumentException(kind + " needs evidence and a confidence from 0 to 1: " + confidence);
        }
    }
}
