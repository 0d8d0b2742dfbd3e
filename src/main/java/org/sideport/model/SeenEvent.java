package org.sideport.model;

/**
 * Something that changed on the screen while somebody spoke.
 *
 * @see SeenTrack
 */
public sealed interface SeenEvent {

    /** From the start of the voice, microseconds. */
    long atUs();

    /** The picture stands still on the frame at {@code time}. */
    record Stand(long atUs, MediaTime time) implements SeenEvent {
        public Stand {
            notBeforeTheVoice(atUs);
        }
    }

    /**
     * The picture runs, from {@code from} on.
     *
     * @param rate seconds of the recording in one second of the voice, above 0
     */
    record Run(long atUs, MediaTime from, double rate) implements SeenEvent {
        public Run {
            notBeforeTheVoice(atUs);
            if (!(rate > 0 && rate <= 100)) {
                throw new IllegalArgumentException("not a rate: " + rate);
            }
        }
    }

    /** A mark appears on the picture. */
    record Drawn(long atUs, DrawnMark mark) implements SeenEvent {
        public Drawn {
            notBeforeTheVoice(atUs);
        }
    }

    /** A mark vanishes: the newest that equals {@code mark}. */
    record Removed(long atUs, DrawnMark mark) implements SeenEvent {
        public Removed {
            notBeforeTheVoice(atUs);
        }
    }

    /** The same, at another moment of the voice. */
    default SeenEvent movedTo(long us) {
        if (this instanceof Stand stand) {
            return new Stand(us, stand.time());
        } else if (this instanceof Run run) {
            return new Run(us, run.from(), run.rate());
        } else if (this instanceof Drawn drawn) {
            return new Drawn(us, drawn.mark());
        } else if (this instanceof Removed removed) {
            return new Removed(us, removed.mark());
        }
        throw new IllegalStateException(toString());
    }

    private static void notBeforeTheVoice(long atUs) {
        if (atUs < 0) {
            throw new IllegalArgumentException("before the voice: " + atUs);
        }
    }
}
