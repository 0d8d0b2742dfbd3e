package org.sideport.app.timeline;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Where something that is dragged comes to lie: at a cut, candidate, border or other boundary nearby, and always on a frame. */
final class Snapper {

    /** What it lies at. The order is that of preference at equal distance. */
    enum To {
        CUT,
        CANDIDATE,
        BORDER,
        BOUNDARY,
        PLAYHEAD,
        FRAME,
        /** anywhere, where the frames are not known */
        FREE
    }

    record Snap(long us, To to) {}

    private Snapper() {}

    /**
     * @param reachUs how far it is drawn
     * @param others boundaries of other lanes, ascending or not
     * @param frames {@code null} where not known
     * @param room where it may lie; what lies outside draws nothing
     */
    static Snap snap(
            long us,
            double reachUs,
            TimelineModel model,
            List<Long> others,
            long playheadUs,
            @Nullable FrameGrid frames,
            Stretch room) {
        long held = room.hold(us);
        Search search = new Search(held, reachUs, room);
        search.all(model.cuts(), To.CUT);
        search.all(model.candidates(), To.CANDIDATE);
        search.all(model.borders(), To.BORDER);
        search.all(others, To.BOUNDARY);
        search.one(playheadUs, To.PLAYHEAD);
        if (frames == null) {
            return search.found();
        }
        long on = frames.nearest(search.best);
        if (on < room.startUs()) {
            on = frames.step(on, 1);
        } else if (on > room.endUs()) {
            on = frames.step(on, -1);
        }
        if (on < room.startUs() || on > room.endUs()) {
            // no frame lies in the room: nothing can be done
            return new Snap(held, To.FREE);
        }
        return new Snap(on, search.to == To.FREE ? To.FRAME : search.to);
    }

    private static final class Search {

        private final long from;
        private final double reachUs;
        private final Stretch room;
        private long best;
        private To to = To.FREE;
        private long distance = Long.MAX_VALUE;

        Search(long from, double reachUs, Stretch room) {
            this.from = from;
            this.reachUs = reachUs;
            this.room = room;
            best = from;
        }

        void all(List<Long> points, To kind) {
            for (long point : points) {
                one(point, kind);
            }
        }

        void one(long point, To kind) {
            long far = Math.abs(point - from);
            if (far <= reachUs && far < distance && point >= room.startUs() && point <= room.endUs()) {
                best = point;
                to = kind;
                distance = far;
            }
        }

        Snap found() {
            return new Snap(best, to);
        }
    }
}
