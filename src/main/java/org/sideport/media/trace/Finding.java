package org.sideport.media.trace;

import org.sideport.model.MediaTime;

/**
 * Something about a recording that a person should look at. Nothing is changed because of it.
 *
 * @param start first moment that shows it
 * @param end when it is over; for a jump the moment that shows the new scene
 * @param evidence one sentence with the figures behind it
 * @param confidence 0 to 1, how far the figures lie beyond their limits; no probability
 */
public record Finding(FindingKind kind, MediaTime start, MediaTime end, String evidence, double confidence) {

    public Finding {
        if (end.isBefore(start)) {
            throw new IllegalArgumentException(kind + " ends before it starts: " + start + " to " + end);
        }
        if (!(confidence >= 0 && confidence <= 1) || evidence.isBlank()) {
            throw new IllegalArgumentException(kind + " needs evidence and a confidence from 0 to 1: " + confidence);
        }
    }
}
