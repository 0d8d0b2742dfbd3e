package org.sideport.player;

import java.util.concurrent.Executor;
import java.util.function.LongSupplier;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.player.PlayerState.Status;

/**
 * Runs a clock over the recording and shows nothing: the stand-in where LibVLC is not installed. Its user shows the
 * exact frame of each moment instead, without sound.
 */
public final class ClockPlayer implements VideoPlayer {

    private final Executor listenerThread;
    private final LongSupplier nanos;
    private final PlaybackClock clock = new PlaybackClock();
    private Runnable listener = () -> {};
    private Status status = Status.CLOSED;
    private long durationUs;
    private double rate = 1.0;

    /** @param nanos a monotonic clock, such as {@code System::nanoTime} */
    public ClockPlayer(Executor listenerThread, LongSupplier nanos) {
        this.listenerThread = listenerThread;
        this.nanos = nanos;
    }

    @Override
    public synchronized void open(Recording recording) {
        durationUs = recording.duration().micros();
        clock.stand(0);
        become(Status.PAUSED);
    }

    @Override
    public synchronized void play(MediaTime from) {
        if (status == Status.CLOSED) {
            return;
        }
        clock.stand(from.micros());
        clock.running(nanos.getAsLong(), true);
        become(Status.PLAYING);
    }

    @Override
    public synchronized void pause() {
        if (status == Status.PLAYING) {
            clock.running(nanos.getAsLong(), false);
            become(Status.PAUSED);
        }
    }

    @Override
    public synchronized void seek(MediaTime to) {
        boolean runs = status == Status.PLAYING;
        clock.stand(to.micros());
        clock.running(nanos.getAsLong(), runs);
    }

    @Override
    public synchronized void setRate(double newRate) {
        rate = Math.max(SLOWEST, Math.min(FASTEST, newRate));
        clock.rate(nanos.getAsLong(), rate);
    }

    @Override
    public void setVolume(int percent) {
        // silent
    }

    @Override
    public void setMuted(boolean muted) {
        // silent
    }

    @Override
    public synchronized PlayerState state() {
        long at = Math.min(clock.at(nanos.getAsLong()), durationUs);
        if (status == Status.PLAYING && at >= durationUs) {
            clock.stand(durationUs);
            become(Status.ENDED);
        }
        return new PlayerState(status, MediaTime.ofMicros(at), true, rate);
    }

    @Override
    public boolean showsPictures() {
        return false;
    }

    @Override
    public synchronized void onChange(Runnable newListener) {
        listener = newListener;
    }

    @Override
    public synchronized void stop() {
        clock.stand(0);
        become(Status.CLOSED);
    }

    @Override
    public void close() {
        stop();
    }

    private void become(Status next) {
        if (status != next) {
            status = next;
            listenerThread.execute(listener);
        }
    }
}
