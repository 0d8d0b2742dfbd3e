package org.sideport.player;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sideport.model.FileRanges;
import org.sideport.model.Segment;
import uk.co.caprica.vlcj.factory.MediaPlayerFactory;
import uk.co.caprica.vlcj.player.base.MediaPlayer;
import uk.co.caprica.vlcj.player.base.MediaPlayerEventAdapter;
import uk.co.caprica.vlcj.player.base.State;
import uk.co.caprica.vlcj.player.embedded.EmbeddedMediaPlayer;

/**
 * The LibVLC objects and the calls on them. Every method must be called from one and the same thread. Holds on to the
 * callbacks: the native side has no reference that the garbage collector sees.
 */
final class VlcEngine {

    /** What LibVLC reports, on its own thread. Times are microseconds inside the file. */
    interface Events {
        void playing();

        void paused(long insideUs, long lengthUs);

        void time(long insideUs);

        void finished();

        void failed();
    }

    private static final List<String> OPTIONS = List.of(
            "--no-xlib",
            "--quiet",
            "--play-and-pause",
            "--no-metadata-network-access",
            "--no-video-title-show",
            "--no-osd",
            "--no-sub-autodetect-file",
            "--no-snapshot-preview",
            "--audio-time-stretch");

    private final MediaPlayerFactory factory;
    private final EmbeddedMediaPlayer player;
    private final VlcCallbacks callbacks;
    private final Listener listener;

    private final Function<Path, Optional<FileRanges>> streams;
    /** Held so that the garbage collector leaves it to the native side. */
    @SuppressWarnings("UnusedVariable")
    private @Nullable RangesMedia ranges;

    /** @param streams where the stream lies in a file that is no plain video; empty for a plain one */
    VlcEngine(PictureSurface surface, Events events, Function<Path, Optional<FileRanges>> streams) {
        this.streams = streams;
        factory = new MediaPlayerFactory(options());
        player = factory.mediaPlayers().newEmbeddedMediaPlayer();
        callbacks = new VlcCallbacks(surface);
        listener = new Listener(events);
        player.videoSurface().set(factory.videoSurfaces().newVideoSurface(callbacks, callbacks, false));
        player.events().addMediaPlayerEventListener(listener);
    }

    private static List<String> options() {
        List<String> options = new ArrayList<>(OPTIONS);
        if (!SoundDevice.isThere()) {
            options.add("--aout=dummy");
        }
        return options;
    }

    void load(Segment segment, long insideUs, boolean paused) {
        callbacks.expect(DisplaySize.of(segment));
        listener.lengthUs = segment.durationUs();
        listener.lastUs = insideUs; // no tick of the file before may be taken for one of this
        String start =
                ":start-time=" + java.math.BigDecimal.valueOf(insideUs, 6).toPlainString();
        Optional<FileRanges> inside = streams.apply(segment.file());
        if (inside.isPresent()) {
            player.controls().stop();
            RangesMedia media = new RangesMedia(inside.get());
            ranges = media;
            if (paused) {
                player.media().startPaused(media, start);
            } else {
                player.media().play(media, start);
            }
            return;
        }
        ranges = null;
        String file = segment.file().toUri().toString();
        if (paused) {
            player.media().startPaused(file, start);
        } else {
            player.media().play(file, start);
        }
    }

    /** True when only a new {@link #load} can bring pictures again. */
    boolean isDead() {
        State state = player.status().state();
        return state == State.STOPPED || state == State.ENDED || state == State.ERROR || state == State.NOTHING_SPECIAL;
    }

    boolean isPaused() {
        return player.status().state() == State.PAUSED;
    }

    void seek(long insideUs) {
        player.controls().setTime(insideUs / 1000);
    }

    void setPaused(boolean paused) {
        player.controls().setPause(paused);
    }

    void setRate(double rate) {
        player.controls().setRate((float) rate);
    }

    void setSound(int volume, boolean muted) {
        player.audio().setVolume(volume);
        player.audio().setMute(muted);
    }

    void stop() {
        player.controls().stop();
    }

    void release() {
        player.controls().stop();
        player.release();
        factory.release();
    }

    private static final class Listener extends MediaPlayerEventAdapter {

        private final Events events;
        private volatile long lengthUs;
        private volatile long lastUs;

        Listener(Events events) {
            this.events = events;
        }

        @Override
        public void playing(MediaPlayer mediaPlayer) {
            events.playing();
        }

        @Override
        public void paused(MediaPlayer mediaPlayer) {
            events.paused(lastUs, lengthUs);
        }

        @Override
        public void timeChanged(MediaPlayer mediaPlayer, long newTime) {
            lastUs = newTime * 1000;
            events.time(lastUs);
        }

        @Override
        public void finished(MediaPlayer mediaPlayer) {
            events.finished();
        }

        @Override
        public void error(MediaPlayer mediaPlayer) {
            events.failed();
        }
    }
}
