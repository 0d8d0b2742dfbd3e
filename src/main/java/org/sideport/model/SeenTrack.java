package org.sideport.model;

import java.util.ArrayList;
import java.util.List;

/**
 * What was on the screen while somebody spoke, as what changed and when: enough to know the picture and the drawing at
 * any moment of the voice.
 *
 * @param events by their moment in the voice; the first, at 0, says where the picture stands or runs
 */
public record SeenTrack(List<SeenEvent> events) {

    /** Changes at most: a change every tenth of a second for ten minutes, and as many lines drawn. */
    public static final int MOST_EVENTS = 12_000;

    /**
     * What was to be seen at one moment.
     *
     * @param time of the recording
     * @param rate seconds of the recording in one second of the voice; 0 while the picture stands
     * @param marks drawn on it, in the order in which they came
     */
    public record Seen(MediaTime time, double rate, List<DrawnMark> marks) {

        public Seen {
            marks = List.copyOf(marks);
        }
    }

    /**
     * A stretch of the voice over which the picture stood, or ran at one rate.
     *
     * @param fromUs in the voice
     * @param toUs in the voice, not before {@code fromUs}
     * @param time of the recording at {@code fromUs}
     * @param rate 0 while the picture stands
     */
    public record Piece(long fromUs, long toUs, MediaTime time, double rate) {

        /** Time of the recording at the end. */
        public MediaTime end() {
            return after(time, rate, toUs - fromUs);
        }
    }

    public SeenTrack {
        events = List.copyOf(events);
        if (events.isEmpty() || events.get(0).atUs() != 0 || !isOfPicture(events.get(0))) {
            throw new IllegalArgumentException("it is not said what picture was on the screen at the start");
        }
        for (int i = 1; i < events.size(); i++) {
            if (events.get(i).atUs() < events.get(i - 1).atUs()) {
                throw new IllegalArgumentException("out of order: " + events.get(i) + " after " + events.get(i - 1));
            }
        }
        if (events.size() > MOST_EVENTS) {
            throw new InputException("more happened on the screen than can be kept", null, "speak in shorter pieces");
        }
    }

    private static boolean isOfPicture(SeenEvent event) {
        return event instanceof SeenEvent.Stand || event instanceof SeenEvent.Run;
    }

    private static MediaTime after(MediaTime from, double rate, long us) {
        return MediaTime.ofMicros(from.micros() + Math.round(rate * us));
    }

    /**
     * @param voiceUs from the start of the voice; what lies before it counts as its start, and after the last change all
     *     goes on as it was
     */
    public Seen seenAt(long voiceUs) {
        long at = Math.max(0, voiceUs);
        MediaTime from = MediaTime.ZERO;
        long since = 0;
        double rate = 0;
        List<DrawnMark> marks = new ArrayList<>();
        for (SeenEvent event : events) {
            if (event.atUs() > at) {
                break;
            }
            if (event instanceof SeenEvent.Stand stand) {
                from = stand.time();
                since = stand.atUs();
                rate = 0;
            } else if (event instanceof SeenEvent.Run run) {
                from = run.from();
                since = run.atUs();
                rate = run.rate();
            } else if (event instanceof SeenEvent.Drawn drawn) {
                marks.add(drawn.mark());
            } else if (event instanceof SeenEvent.Removed removed) {
                int place = marks.lastIndexOf(removed.mark());
                if (place >= 0) {
                    marks.remove(place);
                }
            }
        }
        return new Seen(after(from, rate, at - since), rate, marks);
    }

    /** The stretches of standing and running up to the end of the voice; none is empty. */
    public List<Piece> pieces(long lengthUs) {
        List<SeenEvent> changes = events.stream().filter(SeenTrack::isOfPicture).toList();
        List<Piece> pieces = new ArrayList<>();
        for (int i = 0; i < changes.size(); i++) {
            long start = changes.get(i).atUs();
            long end = i + 1 < changes.size()
                    ? Math.min(lengthUs, changes.get(i + 1).atUs())
                    : lengthUs;
            if (end > start) {
                Seen seen = seenAt(start);
                pieces.add(new Piece(start, end, seen.time(), seen.rate()));
            }
        }
        return pieces;
    }

    /** Without what would come after the end of the voice. */
    public SeenTrack upTo(long lengthUs) {
        return new SeenTrack(
                events.stream().filter(event -> event.atUs() <= lengthUs).toList());
    }
}
