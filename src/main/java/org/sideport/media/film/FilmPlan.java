package org.sideport.media.film;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameRef;
import org.sideport.media.RecordingFrames;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;

/**
 * Which frame of the recording is shown when in a film. Where it runs, every frame keeps its distance, stretched by the rate;
 * where it stands, the same frame comes again and again at a steady pace, as players and editing programs like it.
 *
 * @param pictures by time, the first at 0
 * @param lengthUs of the film
 */
public record FilmPlan(List<Picture> pictures, long lengthUs) {

    /** Distance of equal pictures while it stands: 25 a second. */
    static final long STEP_US = 40_000;

    /** Pictures nearer than this are left out, where it runs fast: 60 a second. */
    private static final long NEAREST_US = 16_000;

    /**
     * @param atUs of the film
     * @param frame of the recording
     * @param seen time of the recording that is shown, within the frame
     * @param marks that were drawn while somebody spoke
     * @param starts true for the first of a shot
     */
    public record Picture(long atUs, FrameRef frame, MediaTime seen, List<DrawnMark> marks, boolean starts) {
        public Picture {
            marks = List.copyOf(marks);
        }
    }

    public FilmPlan {
        pictures = List.copyOf(pictures);
    }

    public static FilmPlan of(List<Shot> shots, RecordingFrames recording) {
        List<Picture> pictures = new ArrayList<>();
        long start = 0;
        for (Shot shot : shots) {
            add(pictures, shot, start, recording);
            start += shot.lengthUs();
        }
        return new FilmPlan(pictures, start);
    }

    private static void add(List<Picture> pictures, Shot shot, long start, RecordingFrames recording) {
        // by time in the shot: a later reason for the same moment says more
        TreeMap<Long, MediaTime> moments = new TreeMap<>();
        for (SeenTrack.Piece piece : shot.seen().pieces(shot.lengthUs())) {
            moments.put(piece.fromUs(), piece.time());
            if (piece.rate() == 0) {
                for (long at = piece.fromUs() + STEP_US; at < piece.toUs(); at += STEP_US) {
                    moments.put(at, piece.time());
                }
            } else {
                run(moments, piece, recording);
            }
        }
        for (SeenEvent event : shot.seen().events()) {
            boolean drawing = event instanceof SeenEvent.Drawn || event instanceof SeenEvent.Removed;
            if (drawing && event.atUs() < shot.lengthUs()) {
                moments.put(event.atUs(), shot.seen().seenAt(event.atUs()).time());
            }
        }
        boolean first = true;
        for (var moment : moments.entrySet()) {
            List<DrawnMark> marks = shot.seen().seenAt(moment.getKey()).marks();
            FrameRef frame = recording.frameAt(within(moment.getValue(), recording));
            pictures.add(new Picture(start + moment.getKey(), frame, moment.getValue(), marks, first));
            first = false;
        }
    }

    private static MediaTime within(MediaTime time, RecordingFrames recording) {
        long last = recording.duration().micros() - 1;
        return MediaTime.ofMicros(Math.max(0, Math.min(last, time.micros())));
    }

    private static void run(TreeMap<Long, MediaTime> moments, SeenTrack.Piece piece, RecordingFrames recording) {
        long before = piece.fromUs();
        @Nullable FrameRef frame = recording.next(recording.frameAt(within(piece.time(), recording)));
        while (frame != null) {
            long at = piece.fromUs()
                    + Math.round((frame.start().micros() - piece.time().micros()) / piece.rate());
            if (at >= piece.toUs()) {
                return;
            }
            if (at - before >= NEAREST_US || piece.rate() <= 1) {
                moments.put(at, frame.start());
                before = at;
            }
            frame = recording.next(frame);
        }
    }

    /** How long the picture with this number stays. */
    public long lengthOf(int number) {
        long until = number + 1 < pictures.size() ? pictures.get(number + 1).atUs() : lengthUs;
        return until - pictures.get(number).atUs();
    }
}
