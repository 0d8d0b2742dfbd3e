package org.sideport.player;

import org.jspecify.annotations.Nullable;

/**
 * Where playback is between the ticks of a clock that moves only every quarter of a second. Times are microseconds of
 * the recording, {@code now} is a monotonic clock in nanoseconds. Thread-safe.
 *
 * <p>While a seek is under way the clock stands at the place asked for. A tick that would move the time backwards by
 * less than {@link #JITTER_US} is dropped: the clock then simply runs on.
 */
final class PlaybackClock {

    /** Backward corrections smaller than this are noise of the coarse clock, microseconds. */
    static final long JITTER_US = 300_000;
    /** How far from a seek's target a tick may lie to be taken as its arrival, microseconds. */
    static final long ARRIVAL_US = 3_000_000;
    /** After this long any tick is believed, nanoseconds. */
    static final long PATIENCE_NS = 6_000_000_000L;

    /** A player that has been silent for so long has stalled: time does not run on without it, nanoseconds. */
    static final long SILENCE_NS = 3_000_000_000L;

    private final long runOnNanos;
    private long anchorNanos;
    private long anchorMicros;
    private double rate = 1.0;
    private boolean running;
    private @Nullable Long target;
    private long targetNanos;

    /** One that runs on by itself for ever. */
    PlaybackClock() {
        this(Long.MAX_VALUE);
    }

    private PlaybackClock(long runOnNanos) {
        this.runOnNanos = runOnNanos;
    }

    /** One that stands where a player, which should tick all the time, has gone silent. */
    static PlaybackClock ofTicks() {
        return new PlaybackClock(SILENCE_NS);
    }

    synchronized long at(long now) {
        if (target != null) {
            return target;
        }
        return running ? anchorMicros + (long) (Math.min(now - anchorNanos, runOnNanos) / 1000.0 * rate) : anchorMicros;
    }

    synchronized boolean isSeeking() {
        return target != null;
    }

    /** Another place has been asked for. */
    synchronized void seeking(long now, long micros) {
        target = micros;
        targetNanos = now;
    }

    /**
     * The player's own clock has ticked.
     *
     * @return true if a pending seek has arrived with it
     */
    synchronized boolean ticked(long now, long micros) {
        boolean arrived = false;
        if (target != null) {
            if (Math.abs(micros - target) > ARRIVAL_US && now - targetNanos < PATIENCE_NS) {
                return false;
            }
            target = null;
            arrived = true;
        } else if (running) {
            long back = at(now) - micros;
            if (back > 0 && back < JITTER_US) {
                return false;
            }
        }
        anchorNanos = now;
        anchorMicros = micros;
        return arrived;
    }

    synchronized void running(long now, boolean runs) {
        anchorMicros = target == null ? at(now) : anchorMicros;
        anchorNanos = now;
        running = runs;
    }

    synchronized void rate(long now, double newRate) {
        if (target == null) {
            anchorMicros = at(now);
            anchorNanos = now;
        }
        rate = newRate;
    }

    /** Stands still at {@code micros}. */
    synchronized void stand(long micros) {
        target = null;
        running = false;
        anchorMicros = micros;
    }
}
