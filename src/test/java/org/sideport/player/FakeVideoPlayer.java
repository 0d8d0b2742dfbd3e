package org.sideport.player;

import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.player.PlayerState.Status;

/** A player whose clock the test sets. */
public final class FakeVideoPlayer implements VideoPlayer {

    private Runnable listener = () -> {};
    private Status status = Status.CLOSED;
    private MediaTime time = MediaTime.ZERO;
    private double rate = 1.0;
    private boolean live = true;
    private @Nullable LivePicture picture;

    /** Lets the recording run to {@code now}. */
    public void runTo(MediaTime now) {
        time = now;
        listener.run();
    }

    public void end() {
        status = Status.ENDED;
        listener.run();
    }

    public void fail() {
        status = Status.FAILED;
        listener.run();
    }

    /** What {@link #livePicture()} gives from now on. */
    public void show(@Nullable LivePicture now) {
        picture = now;
    }

    @Override
    public @Nullable LivePicture livePicture() {
        return picture;
    }

    public void setLive(boolean live) {
        this.live = live;
    }

    @Override
    public void open(Recording recording) {
        status = Status.PAUSED;
        time = MediaTime.ZERO;
    }

    @Override
    public void play(MediaTime from) {
        status = Status.PLAYING;
        time = from;
    }

    @Override
    public void pause() {
        status = Status.PAUSED;
    }

    @Override
    public void seek(MediaTime to) {
        time = to;
    }

    @Override
    public void setRate(double wanted) {
        rate = wanted;
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
    public PlayerState state() {
        return new PlayerState(status, time, live, rate);
    }

    @Override
    public boolean showsPictures() {
        return true;
    }

    @Override
    public void onChange(Runnable newListener) {
        listener = newListener;
    }

    @Override
    public void stop() {
        status = Status.CLOSED;
    }

    @Override
    public void close() {
        stop();
    }
}
