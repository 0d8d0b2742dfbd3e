package org.sideport.player;

import org.sideport.model.MediaTime;

/**
 * What a player is doing at one moment.
 *
 * @param time roughly where the recording is: interpolated between the player's coarse clock ticks. Good enough to move
 *     a playhead, never good enough to write down
 * @param live true once the player shows its own pictures of the place last asked for; until then the exact frame
 *     stays on the screen
 */
public record PlayerState(Status status, MediaTime time, boolean live, double rate) {

    public static final PlayerState CLOSED = new PlayerState(Status.CLOSED, MediaTime.ZERO, false, 1.0);

    public enum Status {
        /** nothing is open */
        CLOSED,
        PAUSED,
        PLAYING,
        /** played to the end of the last segment */
        ENDED,
        /** the file cannot be played; exact frames may still be had */
        FAILED
    }

    public boolean isPlaying() {
        return status == Status.PLAYING;
    }
}
