package org.sideport.app.voice;

import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Executor;
import java.util.function.LongSupplier;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyLongProperty;
import javafx.beans.property.ReadOnlyLongWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.collections.ListChangeListener;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notices;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.comment.CommentsViewModel;
import org.sideport.app.comment.LiveDrawing;
import org.sideport.app.picture.PictureDesk;
import org.sideport.media.voice.CaptionFile;
import org.sideport.model.Comment;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;
import org.sideport.model.SeenTrack;
import org.sideport.model.Voice;
import org.sideport.workflow.CommentSession;
import org.sideport.workflow.VoiceKeeping;

/** Speaking a comment while the picture runs or stands, and hearing one with the picture in step. Screen's thread only. */
public final class SpokenViewModel {

    /** What is going on. */
    public enum State {
        IDLE,
        OPENING,
        RECORDING,
        /** the sound is being completed */
        KEEPING,
        PLAYING
    }

    /** A key held shorter than this is a press: the recording goes on until the next one. */
    static final long PRESS_US = 400_000;

    /** How long nothing but digital silence may come before it is said. */
    private static final long SILENT_US = 2_000_000;

    private static final long NOTE_EVERY_US = 1_000_000;
    private static final String TOLD = "voice_told";

    /** What a recording needs of its surroundings, as they were when it began. */
    private record Take(
            String id,
            Path part,
            String caseCode,
            String author,
            MediaTime end,
            VoiceRecording voice,
            SeenRecorder seen) {}

    private final CurrentCase current;
    private final PictureDesk desk;
    private final ReadOnlyStringProperty person;
    private final CommentsViewModel comments;
    private final LiveDrawing live;
    private final VoiceKeeping keeping;
    private final Background work;
    private final VoiceInput input;
    private final Narrator narrator;
    private final Executor screen;
    private final LongSupplier nanos;
    private final Notices notices;
    private final Texts texts;
    private final Settings settings;

    private final ReadOnlyObjectWrapper<State> state = new ReadOnlyObjectWrapper<>(State.IDLE);
    private final ReadOnlyLongWrapper elapsed = new ReadOnlyLongWrapper(0);
    private final ReadOnlyDoubleWrapper level = new ReadOnlyDoubleWrapper(0);
    private @Nullable Take take;
    private boolean discarding;
    private boolean stopWanted;
    private boolean toldSilent;
    private long stoppedAt;
    private long notedUs;
    private long pressedAt;
    private @Nullable Comment discarded;
    private boolean wasMuted;

    /**
     * @param person code of who is at work
     * @param screen where results are handed over
     * @param nanos a clock
     */
    public SpokenViewModel(
            CurrentCase current,
            PictureDesk desk,
            ReadOnlyStringProperty person,
            CommentsViewModel comments,
            LiveDrawing live,
            VoiceKeeping keeping,
            Background work,
            VoiceInput input,
            VoiceOutput output,
            Executor screen,
            LongSupplier nanos,
            Notices notices,
            Texts texts,
            Settings settings) {
        this.current = current;
        this.desk = desk;
        this.person = person;
        this.comments = comments;
        this.live = live;
        this.keeping = keeping;
        this.work = work;
        this.input = input;
        this.narrator = new Narrator(output, screen, nanos, notices, texts);
        this.screen = screen;
        this.nanos = nanos;
        this.notices = notices;
        this.texts = texts;
        this.settings = settings;
        desk.playingProperty().addListener((property, old, now) -> started(now));
        desk.rateProperty().addListener((property, old, now) -> seen());
        desk.timeProperty().addListener((property, old, now) -> seen());
        desk.recordingProperty().addListener((property, old, now) -> end());
        live.marks().addListener((ListChangeListener<DrawnMark>) this::drawn);
        narrator.playingProperty().addListener((property, old, now) -> heard(now));
    }

    public ReadOnlyObjectProperty<State> stateProperty() {
        return state.getReadOnlyProperty();
    }

    /** How far the voice is that is recorded or heard, microseconds. */
    public ReadOnlyLongProperty elapsedProperty() {
        return elapsed.getReadOnlyProperty();
    }

    /** How loud it is, 0 to 1. */
    public ReadOnlyDoubleProperty levelProperty() {
        return level.getReadOnlyProperty();
    }

    /** The comment that is being heard, or {@code null}. */
    public ReadOnlyObjectProperty<@Nullable Comment> playingProperty() {
        return narrator.playingProperty();
    }

    public LiveDrawing live() {
        return live;
    }

    public boolean isOwn(Comment comment) {
        return comments.isOwn(comment.author());
    }

    // ---- keys

    /** The key goes down, or the button is pressed. */
    public void press() {
        if (state.get() == State.RECORDING || state.get() == State.OPENING) {
            stop();
        } else {
            pressedAt = nanos.getAsLong();
            begin();
        }
    }

    /** The key comes up: after a hold, what was said is complete; after a mere press, speaking goes on. */
    public void release() {
        if ((nanos.getAsLong() - pressedAt) / 1000 >= PRESS_US) {
            stop();
        }
    }

    // ---- recording

    private void begin() {
        end();
        if (state.get() != State.IDLE || comments.refused() || !desk.isReady()) {
            return;
        }
        if (!settings.get(TOLD, false)) {
            settings.put(TOLD, true);
            notices.hint(texts.get("spoken.first"));
            return;
        }
        discarded = null;
        stopWanted = false;
        state.set(State.OPENING);
        work.run(progress -> input.open(), this::opened, failure -> {
            state.set(State.IDLE);
            if (failure instanceof VoiceInput.Unavailable why) {
                notices.hint(
                        switch (why.reason()) {
                            case NO_MICROPHONE -> texts.get("spoken.noMicrophone");
                            case REFUSED -> texts.get("spoken.refused");
                        });
            } else {
                notices.failed(failure);
            }
        });
    }

    private void opened(VoiceInput.Line line) {
        CurrentCase.Opened open = current.opened();
        if (open == null || stopWanted || !desk.isReady()) {
            line.close();
            state.set(State.IDLE);
            return;
        }
        comments.end();
        String id = CommentSession.newId();
        Path part = keeping.begin(id);
        VoiceRecording voice = new VoiceRecording(line, part, nanos, screen, this::recorded);
        SeenRecorder seen = new SeenRecorder(
                desk.playingProperty().get(),
                desk.timeProperty().get(),
                desk.rateProperty().get());
        take = new Take(
                id, part, open.code(), person.get(), desk.durationProperty().get(), voice, seen);
        discarding = false;
        toldSilent = false;
        stoppedAt = 0;
        notedUs = -NOTE_EVERY_US;
        notices.clear();
        mute();
        live.end();
        live.useProperty().set(LiveDrawing.Use.DRAWING);
        voice.start();
        elapsed.set(0);
        state.set(State.RECORDING);
        tick();
    }

    private void mute() {
        wasMuted = desk.mutedProperty().get();
        // what the recording itself sounds like must not be in the voice, or over it
        desk.setMuted(true);
    }

    /** Ends speaking and keeps what was said. */
    public void stop() {
        stopWanted = true;
        Take now = take;
        if (now != null && state.get() == State.RECORDING) {
            state.set(State.KEEPING);
            stoppedAt = nanos.getAsLong();
            now.voice().stop();
        }
    }

    /** Ends speaking and throws away what was said; {@link #bringBack} brings it back. */
    public void discard() {
        discarding = true;
        stop();
    }

    private void recorded(@Nullable RuntimeException failure) {
        Take done = take;
        take = null;
        live.end();
        desk.setMuted(wasMuted);
        level.set(0);
        if (done == null || failure != null) {
            state.set(State.IDLE);
            if (failure != null) {
                notices.failed(failure);
            }
            return;
        }
        boolean thrown = discarding;
        SeenTrack track = done.seen().track();
        if (done.voice().lengthUs() == 0) {
            keeping.discard(done.part());
            state.set(State.IDLE);
            notices.hint(texts.get("spoken.nothing"));
            return;
        }
        state.set(State.KEEPING);
        work.run(
                progress -> keeping.finish(done.part(), done.id(), done.author(), track, done.end()),
                comment -> {
                    state.set(State.IDLE);
                    if (thrown) {
                        discarded = comment;
                        notices.hint(texts.get("spoken.discarded"));
                    } else {
                        comments.keep(comment, () -> {});
                    }
                },
                wrong -> {
                    state.set(State.IDLE);
                    notices.failed(wrong);
                });
    }

    /** Keeps after all what was thrown away last. @return false if there is nothing */
    public boolean bringBack() {
        Comment back = discarded;
        discarded = null;
        if (back == null || !isOwn(back)) {
            return false;
        }
        comments.keep(back, () -> {});
        return true;
    }

    /** What is drawn belongs to the picture that it was drawn on: it goes when that picture begins to run. */
    private void started(boolean running) {
        seen();
        if (running && state.get() == State.RECORDING) {
            live.marks().clear();
        }
    }

    /** The picture may have changed. */
    private void seen() {
        Take now = take;
        if (now == null || state.get() != State.RECORDING) {
            return;
        }
        boolean running = desk.playingProperty().get();
        MediaTime time = desk.timeProperty().get();
        boolean other = now.seen()
                .picture(now.voice().nowUs(), running, time, desk.rateProperty().get());
        if (other && !running) {
            live.marks().clear();
        }
    }

    private void drawn(ListChangeListener.Change<? extends DrawnMark> change) {
        Take now = take;
        while (now != null && change.next()) {
            long at = now.voice().nowUs();
            change.getRemoved().forEach(mark -> now.seen().removed(at, mark));
            change.getAddedSubList().forEach(mark -> now.seen().drawn(at, mark));
        }
    }

    /** Takes the newest mark away. @return false if there is none */
    public boolean undrawLast() {
        List<DrawnMark> marks = live.marks();
        if (state.get() != State.RECORDING || marks.isEmpty()) {
            return false;
        }
        marks.remove(marks.size() - 1);
        return true;
    }

    // ---- hearing

    /** Lets a spoken comment be heard and shows what was seen; another one that is being heard ends. */
    public void play(Comment comment) {
        Voice voice = comment.voice();
        if (voice == null || !desk.isReady() || state.get() == State.RECORDING || state.get() == State.OPENING) {
            return;
        }
        end();
        if (state.get() != State.IDLE) {
            return;
        }
        comments.end();
        narrator.play(desk, comment, keeping.fileOf(voice), live);
    }

    private void heard(@Nullable Comment now) {
        if (now != null) {
            elapsed.set(0);
            state.set(State.PLAYING);
        } else if (state.get() == State.PLAYING) {
            state.set(State.IDLE);
        }
    }

    /** Ends what is being heard, and keeps what is being said. @return false if neither was going on */
    public boolean end() {
        if (state.get() == State.PLAYING) {
            return narrator.end();
        }
        boolean speaking = state.get() == State.RECORDING;
        if (speaking) {
            stop();
        }
        return speaking;
    }

    // ---- time

    /** To be called once per screen refresh while the state is not {@link State#IDLE}. */
    public void tick() {
        Take now = take;
        Comment comment = playingProperty().get();
        if (now != null) {
            tick(now);
        } else if (comment != null) {
            long us = narrator.tick();
            if (us >= 0) {
                elapsed.set(Math.min(us, Objects.requireNonNull(comment.voice()).lengthUs()));
            }
        }
    }

    private void tick(Take now) {
        long us = now.voice().nowUs();
        if (state.get() == State.KEEPING) {
            if (nanos.getAsLong() - stoppedAt > 1_000_000_000L) {
                now.voice().force();
            }
            return;
        }
        seen();
        elapsed.set(us);
        level.set(now.voice().level());
        if (us > SILENT_US && !now.voice().hasHeard() && !toldSilent) {
            toldSilent = true;
            notices.hint(texts.get("spoken.silent"));
        }
        if (us - notedUs >= NOTE_EVERY_US) {
            notedUs = us;
            SeenTrack track = now.seen().track();
            work.run(
                    progress -> {
                        keeping.note(now.part(), now.caseCode(), now.author(), track);
                        return true;
                    },
                    done -> {},
                    notices::failed);
        }
        if (us >= Voice.LONGEST_US) {
            notices.hint(texts.get("spoken.longest"));
            stop();
        }
    }

    // ---- text

    /** Puts the captions of a file beside a spoken comment of one's own. */
    public void importCaptions(Comment comment, Path file) {
        work.run(
                progress -> VoiceKeeping.withCaptions(comment, CaptionFile.read(file), file.toString()),
                written -> comments.keep(written, () -> {}),
                notices::failed);
    }
}
