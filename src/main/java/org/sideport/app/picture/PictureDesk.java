package org.sideport.app.picture;

import java.util.function.Consumer;
import java.util.function.Function;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.ReadOnlyIntegerWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.value.ChangeListener;
import javafx.beans.value.ObservableValue;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.media.Fields;
import org.sideport.media.FrameRef;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.player.LivePicture;
import org.sideport.player.PlayerState;
import org.sideport.player.VideoPlayer;

/**
 * One picture out of two engines. While the recording plays, the player shows it and gives a rough time; as soon as it
 * stands, the exact frame is on the screen and {@link #timeProperty()} is that frame's time. Screen's thread only.
 */
public final class PictureDesk {

    private final FrameSource.Opener opener;
    private final Background frames;
    private final Notices notices;
    private final ReadOnlyObjectWrapper<VideoPlayer> player;
    private final ReadOnlyObjectWrapper<@Nullable Recording> recording = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<@Nullable ShownFrame> shown = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<MediaTime> time = new ReadOnlyObjectWrapper<>(MediaTime.ZERO);
    private final ReadOnlyObjectWrapper<MediaTime> duration = new ReadOnlyObjectWrapper<>(MediaTime.ZERO);
    private final ReadOnlyBooleanWrapper playing = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyBooleanWrapper live = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyDoubleWrapper rate = new ReadOnlyDoubleWrapper(1.0);
    private final ReadOnlyIntegerWrapper volume = new ReadOnlyIntegerWrapper(80);
    private final ReadOnlyBooleanWrapper muted = new ReadOnlyBooleanWrapper(false);
    private final PlayOptions options;
    private final ReadOnlyDoubleWrapper opening = new ReadOnlyDoubleWrapper(Double.NaN);
    private Background.@Nullable Job openingJob;
    private @Nullable FrameQueue queue;
    private @Nullable FrameSource source;
    private long frameCount;
    /** Tells results for what is open now from late ones for what was. */
    private int openings;

    public PictureDesk(VideoPlayer player, FrameSource.Opener opener, Background frames, Notices notices) {
        this.player = new ReadOnlyObjectWrapper<>(player);
        this.opener = opener;
        this.frames = frames;
        this.notices = notices;
        player.onChange(this::tick);
        options = new PlayOptions(notices);
    }

    // ---- what is to be seen

    public ReadOnlyObjectProperty<@Nullable Recording> recordingProperty() {
        return recording.getReadOnlyProperty();
    }

    /** The exact frame last decoded: on the screen unless {@link #liveProperty()}. */
    public ReadOnlyObjectProperty<@Nullable ShownFrame> shownProperty() {
        return shown.getReadOnlyProperty();
    }

    /** The time of the picture on the screen: exact when standing, rough when playing. */
    public ReadOnlyObjectProperty<MediaTime> timeProperty() {
        return time.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<MediaTime> durationProperty() {
        return duration.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty playingProperty() {
        return playing.getReadOnlyProperty();
    }

    /** True while the player's own moving picture is to be shown instead of the exact frame. */
    public ReadOnlyBooleanProperty liveProperty() {
        return live.getReadOnlyProperty();
    }

    public ReadOnlyDoubleProperty rateProperty() {
        return rate.getReadOnlyProperty();
    }

    public ReadOnlyIntegerProperty volumeProperty() {
        return volume.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty mutedProperty() {
        return muted.getReadOnlyProperty();
    }

    /** How far the opening of a recording is, 0 to 1; not a number when none is being opened. */
    public ReadOnlyDoubleProperty openingProperty() {
        return opening.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<VideoPlayer> playerProperty() {
        return player.getReadOnlyProperty();
    }

    public long frameCount() {
        return frameCount;
    }

    /** What of the recording is played. */
    public PlayOptions options() {
        return options;
    }

    /** Runs {@code action} as soon as a picture of what is being opened is on the screen: at once if one is. */
    public void whenReady(Runnable action) {
        if (shown.get() != null) {
            action.run();
            return;
        }
        shown.addListener(new ChangeListener<>() {
            @Override
            public void changed(
                    ObservableValue<? extends @Nullable ShownFrame> property,
                    @Nullable ShownFrame old,
                    @Nullable ShownFrame now) {
                if (now != null) {
                    shown.removeListener(this);
                    action.run();
                }
            }
        });
    }

    public boolean isReady() {
        return queue != null;
    }

    // ---- opening

    /** Uses another player from now on; what is open stays open, standing. */
    public void usePlayer(VideoPlayer other) {
        pause();
        player.get().onChange(() -> {});
        player.get().stop();
        player.set(other);
        other.onChange(this::tick);
        other.setVolume(volume.get());
        other.setMuted(isSilent());
        other.setRate(rate.get());
        Recording open = recording.get();
        if (open != null) {
            other.open(open);
        }
    }

    /** Closes what is open and opens {@code wanted} at its first frame. */
    public void open(Recording wanted) {
        close();
        int turn = ++openings;
        recording.set(wanted);
        player.get().setMuted(isSilent());
        opening.set(0);
        openingJob = frames.named("jobs.opening")
                .run(
                        progress -> opener.open(wanted, progress),
                        source -> opened(turn, wanted, source),
                        failure -> {
                            if (openings == turn) {
                                opening.set(Double.NaN);
                                recording.set(null);
                                notices.failed(failure);
                            }
                        },
                        (fraction, message) -> {
                            if (openings == turn && !isReady()) {
                                opening.set(Math.max(0, fraction));
                            }
                        });
    }

    private void opened(int turn, Recording wanted, FrameSource opened) {
        FrameQueue fresh = new FrameQueue(opened, frames, this::show, notices::failed);
        if (openings != turn) {
            fresh.close();
            return;
        }
        opening.set(Double.NaN);
        openingJob = null;
        source = opened;
        queue = fresh;
        frameCount = opened.frameCount();
        duration.set(opened.duration());
        player.get().open(wanted);
        fresh.ask(frames -> frames.frame(0));
    }

    public void close() {
        openings++;
        if (openingJob != null) {
            openingJob.cancel();
            openingJob = null;
        }
        opening.set(Double.NaN);
        player.get().stop();
        playing.set(false);
        live.set(false);
        if (queue != null) {
            queue.close();
        }
        queue = null;
        source = null;
        frameCount = 0;
        recording.set(null);
        options.clear();
        shown.set(null);
        time.set(MediaTime.ZERO);
        duration.set(MediaTime.ZERO);
    }

    // ---- moving

    public void playOrPause() {
        if (playing.get()) {
            pause();
        } else {
            play();
        }
    }

    public void play() {
        FrameQueue open = queue;
        if (open == null || playing.get()) {
            return;
        }
        open.whenSettled(() -> {
            ShownFrame from = shown.get();
            if (from == null || queue != open) {
                return;
            }
            boolean atEnd = from.frame().number() == frameCount - 1;
            MediaTime start = startOfPlay(atEnd ? MediaTime.ZERO : from.frame().start());
            playing.set(true);
            player.get().play(start);
        });
    }

    private MediaTime startOfPlay(MediaTime wanted) {
        PlayPlan.Move move = options.plan().at(wanted);
        if (move instanceof PlayPlan.Move.JumpTo jump) {
            return jump.to();
        }
        // after the last stretch there is nothing left: from the first one again
        return move instanceof PlayPlan.Move.Stop
                ? options.markedProperty().get().get(0).start()
                : wanted;
    }

    /** Stands still on the frame that was on the screen. */
    public void pause() {
        FrameQueue open = queue;
        if (open == null || !playing.get()) {
            return;
        }
        PlayerState now = player.get().state();
        LivePicture picture = live.get() ? player.get().livePicture() : null;
        playing.set(false);
        player.get().pause();
        if (picture != null) {
            open.ask(FrameQueue.once(new FrameSearch(picture, now)::all));
        } else {
            open.ask(frames -> frames.frameAt(now.time()));
        }
    }

    /** Goes {@code by} frames on, or back; stands still there. */
    public void step(long by) {
        FrameQueue open = queue;
        if (open != null) {
            pause();
            open.step(by);
        }
    }

    /** Goes to the frame at {@code to}; a recording that plays plays on from there. */
    public void seek(MediaTime to) {
        FrameQueue open = queue;
        if (open == null) {
            return;
        }
        MediaTime within = to.isAfter(duration.get()) ? duration.get() : to;
        if (playing.get()) {
            player.get().seek(within);
            time.set(within);
        }
        open.ask(frames -> frames.frameAt(within));
    }

    /** Moves by some microseconds, backwards if negative. */
    public void skip(long micros) {
        MediaTime from = playing.get() ? player.get().state().time() : time.get();
        seek(MediaTime.ofMicros(Math.max(0, from.micros() + micros)));
    }

    /** Stands on the frame at {@code to}: for dragging along the timeline. Its small picture comes first, then the full. */
    public void scrub(MediaTime to) {
        FrameQueue open = queue;
        if (open == null) {
            return;
        }
        if (playing.get()) {
            playing.set(false);
            player.get().pause();
        }
        MediaTime within = to.isAfter(duration.get()) ? duration.get() : to;
        open.askDraft(frames -> frames.frameAt(within));
    }

    /** What is shown of interlaced frames from now on. */
    public void showFields(Fields fields) {
        FrameQueue open = queue;
        if (open != null) {
            open.showFields(fields);
        }
    }

    /**
     * Hands over the frame on the screen, exactly as it is when standing; while playing, the frame of this moment as near
     * as the player knows. Steps asked for before are done first.
     */
    public void stamp(Consumer<FrameRef> use) {
        stamp(use, corrected -> {});
    }

    /**
     * As {@link #stamp(Consumer)}; while playing, the picture on the screen is then looked for among the exact frames.
     *
     * @param corrected gets the frame that was really on the screen, some moments later, where it is another one
     */
    public void stamp(Consumer<FrameRef> use, Consumer<FrameRef> corrected) {
        FrameQueue open = queue;
        if (open == null) {
            return;
        }
        if (!playing.get()) {
            open.whenSettled(() -> {
                ShownFrame on = shown.get();
                if (on != null) {
                    use.accept(on.frame());
                }
            });
            return;
        }
        PlayerState now = player.get().state();
        ShownFrame on = shown.get();
        LivePicture picture = live.get() ? player.get().livePicture() : null;
        if (!live.get() && on != null) {
            // the moving picture is not there yet, or there is none: an exact frame is on the screen
            use.accept(on.frame());
        } else if (picture == null) {
            frameAt(now.time(), use);
        } else {
            FrameSearch search = new FrameSearch(picture, now);
            runOnSource(search::rough, rough -> {
                use.accept(rough);
                searchOn(search, rough, corrected);
            });
        }
    }

    /** In pieces, so that a frame that is asked for meanwhile does not wait long. */
    private void searchOn(FrameSearch search, FrameRef rough, Consumer<FrameRef> corrected) {
        runOnSource(search::piece, more -> {
            FrameRef found = search.found();
            if (more) {
                searchOn(search, rough, corrected);
            } else if (found != null && found.number() != rough.number()) {
                corrected.accept(found);
            }
        });
    }

    private <T> void runOnSource(Function<FrameSource, T> work, Consumer<T> use) {
        FrameSource open = source;
        if (open != null) {
            frames.run(progress -> work.apply(open), use, notices::failed);
        }
    }

    /** Hands over the frame at some time without showing it. */
    public void frameAt(MediaTime at, Consumer<FrameRef> use) {
        runOnSource(open -> open.frameAt(at), use);
    }

    public void setRate(double wanted) {
        rate.set(Math.max(VideoPlayer.SLOWEST, Math.min(VideoPlayer.FASTEST, wanted)));
        player.get().setRate(rate.get());
    }

    public void setVolume(int percent) {
        volume.set(Math.max(0, Math.min(100, percent)));
        player.get().setVolume(volume.get());
    }

    public void setMuted(boolean silent) {
        muted.set(silent);
        player.get().setMuted(isSilent());
    }

    /** Also where nothing is to be heard: the files of a case that is marked blind may have a sound that is hidden. */
    private boolean isSilent() {
        Recording open = recording.get();
        return muted.get() || (open != null && open.segments().stream().noneMatch(Segment::audio));
    }

    /** Follows the player: to be called once per screen refresh while {@link #playingProperty()} is true. */
    public void tick() {
        FrameQueue open = queue;
        if (open == null || !playing.get()) {
            return;
        }
        PlayerState state = player.get().state();
        switch (state.status()) {
            case PLAYING -> {
                time.set(state.time());
                keepToPlan(state.time());
                if (player.get().showsPictures()) {
                    live.set(state.live());
                } else if (!open.isBusy()) {
                    open.ask(frames -> frames.frameAt(state.time()));
                }
            }
            case ENDED -> {
                PlayPlan plan = options.plan();
                if (plan.loop() != null) {
                    player.get().play(plan.loop().start());
                    return;
                }
                playing.set(false);
                open.ask(frames -> frames.frame(frames.frameCount() - 1));
            }
            case FAILED -> {
                playing.set(false);
                live.set(false);
                notices.playerFailed();
                open.ask(frames -> frames.frameAt(state.time()));
            }
            case PAUSED, CLOSED -> {}
        }
    }

    private void keepToPlan(MediaTime now) {
        PlayPlan.Move move = options.plan().at(now);
        if (move instanceof PlayPlan.Move.JumpTo jump) {
            seek(jump.to());
        } else if (move instanceof PlayPlan.Move.Stop stop) {
            scrub(stop.at());
        }
    }

    private void show(ShownFrame frame) {
        shown.set(frame);
        if (!playing.get()) {
            live.set(false);
            time.set(frame.frame().start());
        }
    }
}
