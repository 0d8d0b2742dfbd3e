package org.sideport.app.voice;

import java.util.ArrayList;
import java.util.List;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;

/** Writes down what is seen while somebody speaks. */
final class SeenRecorder {

    /** A picture that runs may be so far from where it should be before that is written down, microseconds. */
    static final long TOLERANCE_US = 100_000;

    private final List<SeenEvent> events = new ArrayList<>();
    private SeenEvent picture;

    SeenRecorder(boolean playing, MediaTime time, double rate) {
        picture = playing ? new SeenEvent.Run(0, time, rate) : new SeenEvent.Stand(0, time);
        events.add(picture);
    }

    /** The picture at this moment. @return true if it is another one than what went before would have led to */
    boolean picture(long atUs, boolean playing, MediaTime time, double rate) {
        boolean same;
        if (picture instanceof SeenEvent.Stand stand) {
            same = !playing && stand.time().equals(time);
        } else if (picture instanceof SeenEvent.Run run) {
            long expected = run.from().micros() + Math.round(run.rate() * (atUs - run.atUs()));
            same = playing && run.rate() == rate && Math.abs(expected - time.micros()) <= TOLERANCE_US;
        } else {
            same = false;
        }
        if (!same) {
            picture = playing ? new SeenEvent.Run(at(atUs), time, rate) : new SeenEvent.Stand(at(atUs), time);
            add(picture);
        }
        return !same;
    }

    void drawn(long atUs, DrawnMark mark) {
        add(new SeenEvent.Drawn(at(atUs), mark));
    }

    void removed(long atUs, DrawnMark mark) {
        add(new SeenEvent.Removed(at(atUs), mark));
    }

    /** Never before what is written down already. */
    private long at(long us) {
        return Math.max(us, events.get(events.size() - 1).atUs());
    }

    private void add(SeenEvent event) {
        if (events.size() < SeenTrack.MOST_EVENTS) {
            events.add(event);
        }
    }

    SeenTrack track() {
        return new SeenTrack(events);
    }
}
