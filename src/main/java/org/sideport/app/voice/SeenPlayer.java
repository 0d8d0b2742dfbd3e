package org.sideport.app.voice;

import java.util.List;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.picture.ShownFrame;
import org.sideport.model.MediaTime;
import org.sideport.model.SeenTrack;
import org.sideport.model.SeenTrack.Piece;
import org.sideport.model.Voice;

/**
 * Shows on the desk what was seen at a moment of a voice. Standing and slow pictures are exact frames; what ran about as
 * fast as the operation is played, and set right when the player is too far off.
 */
final class SeenPlayer {

    /** Up to this rate exact frames are shown one by one. */
    static final double SLOW = 0.5;

    /** So far the player's picture may be from the one that belongs to the voice, microseconds. */
    static final long TOLERANCE_US = 200_000;

    /** A player that was set right needs a while to get going again. */
    private static final long PATIENCE_NANOS = 1_500_000_000L;

    private final PictureDesk desk;
    private final SeenTrack track;
    private final List<Piece> pieces;
    private final LongSupplier nanos;
    private @Nullable Piece shown;
    private @Nullable MediaTime asked;
    private long mendedAt;

    SeenPlayer(PictureDesk desk, Voice voice, LongSupplier nanos) {
        this.desk = desk;
        this.track = voice.seen();
        this.pieces = track.pieces(voice.lengthUs());
        this.nanos = nanos;
    }

    /** Brings the picture to where it belongs. @return what belongs there */
    SeenTrack.Seen follow(long us) {
        SeenTrack.Seen seen = track.seenAt(us);
        Piece piece = pieces.stream()
                .filter(p -> p.fromUs() <= us && us < p.toUs())
                .findFirst()
                .orElse(shown);
        if (seen.rate() <= SLOW) {
            still(seen.time());
        } else if (!desk.playingProperty().get()) {
            if (piece != shown || asked != null) {
                asked = null;
                mendedAt = nanos.getAsLong();
                desk.setRate(seen.rate());
                desk.seek(seen.time());
                desk.play();
            }
        } else {
            run(seen);
        }
        shown = piece;
        return seen;
    }

    private void still(MediaTime time) {
        ShownFrame frame = desk.shownProperty().get();
        boolean there = !desk.playingProperty().get()
                && frame != null
                && !time.isBefore(frame.frame().start())
                && time.isBefore(frame.frame().end());
        if (!there && !time.equals(asked)) {
            desk.scrub(time);
        }
        asked = time;
    }

    private void run(SeenTrack.Seen seen) {
        asked = null;
        if (desk.rateProperty().get() != seen.rate()) {
            desk.setRate(seen.rate());
        }
        long off = Math.abs(desk.timeProperty().get().micros() - seen.time().micros());
        if (off > TOLERANCE_US && nanos.getAsLong() - mendedAt > PATIENCE_NANOS) {
            mendedAt = nanos.getAsLong();
            desk.seek(seen.time());
        }
    }
}
