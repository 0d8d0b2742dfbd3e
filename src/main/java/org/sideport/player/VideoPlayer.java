package org.sideport.player;

import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;

/**
 * Plays a recording's segments as one timeline. All methods return at once and may be called from any thread; what they
 * bring about shows in {@link #state()} later.
 */
public interface VideoPlayer extends AutoCloseable {

    double SLOWEST = 0.25;
    double FASTEST = 8.0;
    /** Fastest rate with sound; its pitch is kept up to there. */
    double FASTEST_WITH_SOUND = 2.0;

    /** Gets ready to play {@code recording} and closes what was open. */
    void open(Recording recording);

    /** Starts, or goes on, playing at {@code from}. */
    void play(MediaTime from);

    void pause();

    /** Moves on to another place without stopping; of several in a hurry the newest wins. */
    void seek(MediaTime to);

    /** @param rate {@value #SLOWEST} to {@value #FASTEST}, values beyond are cut; silent above {@value #FASTEST_WITH_SOUND} */
    void setRate(double rate);

    /** @param percent 0 to 100 */
    void setVolume(int percent);

    void setMuted(boolean muted);

    /** The state as of now. */
    PlayerState state();

    /** True if the player draws moving pictures itself; false if exact frames must be shown while it runs. */
    boolean showsPictures();

    /** A copy of the player's own picture that is on the screen; {@code null} if it has none there. */
    default @Nullable LivePicture livePicture() {
        return null;
    }

    /** Tells {@code listener} soon after the status changed; several changes may come as one call. */
    void onChange(Runnable listener);

    /** Stops and lets go of the files; another recording can be opened afterwards. */
    void stop();

    /** Gives everything back; nothing may be called afterwards. */
    @Override
    void close();
}
