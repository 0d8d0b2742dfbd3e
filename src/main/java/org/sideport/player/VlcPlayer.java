package org.sideport.player;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Executor;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sideport.model.FileRanges;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.player.PlayerState.Status;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Plays through LibVLC. One thread of its own makes every LibVLC call; events and pictures come on LibVLC's threads and
 * only leave notes. Create it only after {@link VlcDiscovery} found the library. Keep it for the program's life.
 */
public final class VlcPlayer implements VideoPlayer {

    private static final Logger LOG = LoggerFactory.getLogger(VlcPlayer.class);

    /** A pause this near to the end of a file, at normal speed, is its end, microseconds. */
    private static final long END_US = 1_000_000;

    /** A pause that nobody asked for, away from the end, is a broken stream if it lasts so long, milliseconds. */
    private static final long BROKEN_AFTER_MS = 3_000;

    private final Executor listenerThread;
    private final PictureSurface surface;
    private final PlaybackClock clock = PlaybackClock.ofTicks();
    private final ExecutorService vlcThread =
            Executors.newSingleThreadExecutor(work -> new Thread(work, "sideport-vlc") {
                {
                    setDaemon(true);
                }
            });
    private final AtomicReference<@Nullable MediaTime> seekWanted = new AtomicReference<>();
    private final AtomicBoolean tellPosted = new AtomicBoolean();

    private volatile Runnable listener = () -> {};
    private volatile Status status = Status.CLOSED;
    private volatile boolean live;
    private volatile long displaysAtSeek;
    private volatile double rate = 1.0;
    private volatile int volume = 80;
    private volatile boolean muted;
    private volatile long durationUs;
    /** False as soon as the user wants it to stand: late news from LibVLC is then void. */
    private volatile boolean wantsToPlay;

    /** Touched on {@link #vlcThread} only. */
    private @Nullable VlcEngine engine;

    private @Nullable Recording recording;

    private volatile int segment = -1;
    private volatile long segmentStartUs;
    /** Counts what was opened and closed, as soon as it is asked for. */
    private final AtomicInteger asked = new AtomicInteger();
    /** Up to which of these LibVLC has stopped what played before: until then its news is of something else. */
    private volatile int stopped;
    /** Counts where it was sent. */
    private final AtomicLong goes = new AtomicLong();

    /**
     * @param listenerThread where the change listener is called
     * @param surface where the pictures go
     */
    public VlcPlayer(Executor listenerThread, PictureSurface surface) {
        this(listenerThread, surface, file -> Optional.empty());
    }

    /**
     * @param listenerThread where the change listener is called
     * @param surface where the pictures go
     * @param streams where the video lies in a file that has it inside something else; empty for a plain video
     */
    public VlcPlayer(Executor listenerThread, PictureSurface surface, Function<Path, Optional<FileRanges>> streams) {
        this.listenerThread = listenerThread;
        this.surface = surface;
        submit(() -> engine = new VlcEngine(surface, new Notes(), streams));
    }

    public PictureSurface surface() {
        return surface;
    }

    @Override
    public void open(Recording opened) {
        int number = asked.incrementAndGet();
        durationUs = opened.duration().micros();
        wantsToPlay = false;
        clock.stand(0);
        live = false;
        become(Status.PAUSED);
        submit(() -> {
            recording = opened;
            VlcEngine vlc = ready();
            vlc.stop();
            stopped = number;
            segment = -1;
            // opening takes LibVLC seconds the first time: do it before the user asks
            load(vlc, opened, 0, 0, true);
        });
    }

    @Override
    public void play(MediaTime from) {
        if (status == Status.CLOSED) {
            return;
        }
        wantsToPlay = true;
        go(from);
        become(Status.PLAYING);
        submit(() -> {
            Recording now = recording;
            if (now == null || !wantsToPlay) {
                return;
            }
            VlcEngine vlc = ready();
            moveTo(vlc, now, from);
            vlc.setPaused(false);
        });
    }

    @Override
    public void pause() {
        wantsToPlay = false;
        if (status == Status.PLAYING) {
            clock.running(System.nanoTime(), false);
            become(Status.PAUSED);
        }
        submit(() -> ready().setPaused(true));
    }

    @Override
    public void seek(MediaTime to) {
        if (status == Status.CLOSED) {
            return;
        }
        go(to);
        if (seekWanted.getAndSet(to) == null) {
            submit(() -> {
                MediaTime newest = seekWanted.getAndSet(null);
                Recording now = recording;
                if (newest != null && now != null) {
                    moveTo(ready(), now, newest);
                }
            });
        }
    }

    private void go(MediaTime to) {
        goes.incrementAndGet();
        live = false;
        displaysAtSeek = surface.displays();
        clock.seeking(System.nanoTime(), to.micros());
    }

    private void moveTo(VlcEngine vlc, Recording now, MediaTime to) {
        int wanted = now.segmentAt(to);
        long inside = Math.max(0, to.micros() - now.startOf(wanted).micros());
        if (wanted != segment || vlc.isDead()) {
            load(vlc, now, wanted, inside, !wantsToPlay);
        } else {
            vlc.seek(inside);
        }
    }

    private void load(VlcEngine vlc, Recording now, int index, long insideUs, boolean paused) {
        segment = index;
        segmentStartUs = now.startOf(index).micros();
        vlc.load(now.segments().get(index), insideUs, paused);
        vlc.setRate(rate);
    }

    @Override
    public void setRate(double wanted) {
        rate = Math.max(SLOWEST, Math.min(FASTEST, wanted));
        clock.rate(System.nanoTime(), rate);
        submit(() -> {
            ready().setRate(rate);
            applySound();
        });
    }

    @Override
    public void setVolume(int percent) {
        volume = Math.max(0, Math.min(100, percent));
        submit(() -> applySound());
    }

    @Override
    public void setMuted(boolean silent) {
        muted = silent;
        submit(() -> applySound());
    }

    /** Fast playback is silent: speech that fast is noise. */
    private void applySound() {
        ready().setSound(volume, muted || rate > FASTEST_WITH_SOUND);
    }

    @Override
    public PlayerState state() {
        long at = Math.max(0, Math.min(clock.at(System.nanoTime()), durationUs));
        return new PlayerState(status, MediaTime.ofMicros(at), live, rate);
    }

    @Override
    public boolean showsPictures() {
        return true;
    }

    @Override
    public @Nullable LivePicture livePicture() {
        return live ? surface.shown() : null;
    }

    @Override
    public void onChange(Runnable newListener) {
        listener = newListener;
    }

    @Override
    public void stop() {
        int number = asked.incrementAndGet();
        wantsToPlay = false;
        live = false;
        clock.stand(0);
        become(Status.CLOSED);
        submit(() -> {
            recording = null;
            segment = -1;
            ready().stop();
            stopped = number;
        });
    }

    @Override
    public void close() {
        wantsToPlay = false;
        status = Status.CLOSED;
        submit(() -> {
            VlcEngine vlc = engine;
            engine = null;
            if (vlc != null) {
                vlc.release();
            }
        });
        vlcThread.shutdown();
        try {
            if (!vlcThread.awaitTermination(5, TimeUnit.SECONDS)) {
                LOG.warn("LibVLC did not stop in time");
            }
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private VlcEngine ready() {
        VlcEngine vlc = engine;
        if (vlc == null) {
            throw new IllegalStateException("LibVLC has not started");
        }
        return vlc;
    }

    private void submit(Runnable work) {
        try {
            vlcThread.execute(() -> guarded(work));
        } catch (RejectedExecutionException closed) {
            // there is nothing left to work on
        }
    }

    private void guarded(Runnable work) {
        try {
            work.run();
        } catch (RuntimeException | LinkageError failure) {
            LOG.error("LibVLC call failed", failure);
            become(Status.FAILED);
        }
    }

    private void become(Status next) {
        if (status == next) {
            return;
        }
        status = next;
        if (tellPosted.compareAndSet(false, true)) {
            listenerThread.execute(() -> {
                tellPosted.set(false);
                listener.run();
            });
        }
    }

    /** What LibVLC's event thread tells us. Leaves notes and returns; calls no LibVLC. */
    private final class Notes implements VlcEngine.Events {

        /** True while LibVLC still tells of a recording that was put away: stopping waits for the end of its news. */
        private boolean isOfBefore() {
            return stopped != asked.get();
        }

        @Override
        public void playing() {
            if (wantsToPlay && !isOfBefore()) {
                clock.running(System.nanoTime(), true);
                submit(() -> applySound());
            }
        }

        @Override
        public void paused(long insideUs, long lengthUs) {
            // nobody asked for this pause: it is the end of the file, unless it is the echo of an earlier one. The last
            // tick may be a quarter of a second of real time old
            long reached = Math.max(insideUs, clock.at(System.nanoTime()) - segmentStartUs);
            if (isOfBefore()) {
                return;
            }
            if (wantsToPlay && reached > lengthUs - (long) (END_US * Math.max(1.0, rate))) {
                submit(this::segmentEnded);
            } else if (wantsToPlay) {
                watchPause();
            }
        }

        private void watchPause() {
            int askedThen = asked.get();
            long wentThen = goes.get();
            long shownThen = surface.displays();
            CompletableFuture.delayedExecutor(BROKEN_AFTER_MS, TimeUnit.MILLISECONDS, VlcPlayer.this::submit)
                    .execute(() -> breakIfStuck(askedThen, wentThen, shownThen));
        }

        /** An echo of an earlier pause is long over by now; a file that ends before its time is not. */
        private void breakIfStuck(int askedThen, long wentThen, long shownThen) {
            if (asked.get() != askedThen || !wantsToPlay || status != Status.PLAYING || !ready().isPaused()) {
                return;
            }
            if (goes.get() != wentThen || surface.displays() != shownThen) {
                watchPause(); // it was just sent elsewhere, or pictures that were under way have come after all
                return;
            }
            LOG.warn("segment {} broke off", segment);
            wantsToPlay = false;
            clock.running(System.nanoTime(), false);
            become(Status.FAILED);
        }

        @Override
        public void time(long insideUs) {
            if (!wantsToPlay || isOfBefore() || (clock.isSeeking() && surface.displays() == displaysAtSeek)) {
                return;
            }
            if (clock.ticked(System.nanoTime(), segmentStartUs + insideUs)) {
                clock.running(System.nanoTime(), true);
            }
            live = !clock.isSeeking();
        }

        @Override
        public void finished() {
            if (isOfBefore()) {
                return;
            }
            if (surface.displays() == displaysAtSeek && wantsToPlay) {
                LOG.warn("segment {} ended without a picture", segment);
                wantsToPlay = false;
                become(Status.FAILED);
            } else if (wantsToPlay) {
                submit(this::segmentEnded);
            }
        }

        @Override
        public void failed() {
            if (isOfBefore()) {
                return;
            }
            wantsToPlay = false;
            become(Status.FAILED);
        }

        private void segmentEnded() {
            Recording now = recording;
            if (now == null || !wantsToPlay) {
                return;
            }
            int next = segment + 1;
            if (next < now.segments().size()) {
                MediaTime start = now.startOf(next);
                clock.seeking(System.nanoTime(), start.micros());
                displaysAtSeek = surface.displays();
                load(ready(), now, next, 0, false);
            } else {
                wantsToPlay = false;
                clock.stand(durationUs);
                become(Status.ENDED);
            }
        }
    }
}
