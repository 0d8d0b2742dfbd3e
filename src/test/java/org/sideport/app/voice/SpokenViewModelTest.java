package org.sideport.app.voice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.comment.CommentsViewModel;
import org.sideport.app.comment.LiveDrawing;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.app.timeline.Lane;
import org.sideport.app.voice.SpokenViewModel.State;
import org.sideport.media.voice.VoiceReader;
import org.sideport.media.voice.VoiceWriter;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.Voice;
import org.sideport.player.DemoRecordings;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CommentSession;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.VoiceKeeping;

/** On D-001: 25 frames a second, so frame n starts at n times 40 ms. The clock goes on only when the test says so. */
@Timeout(60)
class SpokenViewModelTest {

    private static final List<PicturePoint> STROKE = List.of(new PicturePoint(0.2, 0.3), new PicturePoint(0.6, 0.7));

    @TempDir
    Path folder;

    private final AtomicLong nanos = new AtomicLong(77_000_000_000L);
    private final LinkedBlockingQueue<Runnable> screen = new LinkedBlockingQueue<>();
    private final LiveDrawing live = new LiveDrawing();
    private Bench bench;
    private ReviewViewModel review;
    private CommentsViewModel comments;
    private VoiceKeeping keeping;
    private SpokenViewModel model;

    @BeforeEach
    void open() {
        bench = new Bench(folder);
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        review = bench.review();
        comments = new CommentsViewModel(
                bench.current,
                bench.desk,
                review.annotatorProperty(),
                new CommentCase(bench.workspace),
                new Vocabularies(bench.workspace),
                bench.work,
                bench.notices,
                bench.texts);
        keeping = new VoiceKeeping(bench.workspace);
        model = model(new MadeSound(nanos::get));
        bench.current.open("C-1");
        review.setAnnotator("A1");
        bench.settings.put("voice_told", true);
    }

    private SpokenViewModel model(VoiceInput input) {
        return new SpokenViewModel(
                bench.current,
                bench.desk,
                review.annotatorProperty(),
                comments,
                live,
                keeping,
                bench.work,
                input,
                this::loudspeaker,
                screen::add,
                nanos::get,
                bench.notices,
                bench.texts,
                bench.settings);
    }

    @AfterEach
    void close() {
        bench.close();
    }

    /** Hears at the speed of the test's clock. */
    private VoiceOutput.Line loudspeaker() {
        long start = nanos.get();
        return new VoiceOutput.Line() {
            private volatile boolean closed;
            private volatile long written;

            @Override
            public void write(short[] samples) {
                written += samples.length;
            }

            @Override
            public void drain() {
                while (!closed && positionUs() < written * 1_000_000 / 48_000) {
                    Thread.onSpinWait();
                    try {
                        Thread.sleep(1);
                    } catch (InterruptedException e) {
                        return;
                    }
                }
            }

            @Override
            public long positionUs() {
                return (nanos.get() - start) / 1000;
            }

            @Override
            public boolean isSilent() {
                return false;
            }

            @Override
            public void close() {
                closed = true;
            }
        };
    }

    private static MediaTime frame(long n) {
        return MediaTime.ofMicros(n * 40_000);
    }

    /** Lets time pass, with a refresh of the screen every 20 ms. */
    private void pass(long ms) {
        for (long done = 0; done < ms; done += 20) {
            nanos.addAndGet(20_000_000);
            if (bench.desk.playingProperty().get()) {
                bench.player.runTo(
                        MediaTime.ofMicros(bench.player.state().time().micros()
                                + Math.round(20_000 * bench.player.state().rate())));
                bench.desk.tick();
            }
            model.tick();
        }
    }

    private void handedOver() throws InterruptedException {
        Runnable next = screen.poll(20, TimeUnit.SECONDS);
        assertThat(next).as("the other thread has come to its end").isNotNull();
        next.run();
    }

    private List<CommentThread> stored() {
        return new CommentCase(bench.workspace).of("C-1");
    }

    private Voice voice() {
        return Objects.requireNonNull(stored().get(0).comment().voice());
    }

    @Test
    void whatIsDoneWithThePictureWhileSpeakingIsKeptWithTheVoice() throws Exception {
        bench.desk.seek(frame(100));
        model.press();
        assertThat(model.stateProperty().get()).isEqualTo(State.RECORDING);
        assertThat(bench.desk.mutedProperty().get()).isTrue();
        pass(400);
        live.toolProperty().set(DrawnMark.Kind.ARROW);
        live.addMark(STROKE, "");
        pass(600);
        bench.desk.setRate(0.5);
        bench.desk.play();
        pass(2000);
        bench.desk.pause();
        pass(1000);
        bench.desk.seek(frame(300));
        pass(500);
        model.release();
        assertThat(model.stateProperty().get()).isEqualTo(State.KEEPING);
        handedOver();
        assertThat(model.stateProperty().get()).isEqualTo(State.IDLE);
        assertThat(bench.desk.mutedProperty().get()).isFalse();

        Comment comment = stored().get(0).comment();
        assertThat(comment.author()).isEqualTo("A1");
        assertThat(comment.from()).isEqualTo(frame(100));
        assertThat(voice().lengthUs()).isEqualTo(4_500_000);
        assertThat(VoiceReader.lengthUs(keeping.fileOf(voice()))).isEqualTo(4_500_000);
        SeenTrack seen = voice().seen();
        assertThat(seen.seenAt(390_000)).isEqualTo(new SeenTrack.Seen(frame(100), 0, List.of()));
        assertThat(seen.seenAt(900_000).marks()).hasSize(1);
        assertThat(seen.seenAt(900_000).time()).isEqualTo(frame(100));
        assertThat(seen.seenAt(1_500_000).marks()).as("gone when it runs").isEmpty();
        // half a second of the recording in each second
        assertThat(seen.seenAt(2_000_000).rate()).isEqualTo(0.5);
        assertThat(seen.seenAt(2_000_000).time().micros()).isCloseTo(4_500_000, within(20_000L));
        assertThat(seen.seenAt(3_500_000)).isEqualTo(new SeenTrack.Seen(frame(125), 0, List.of()));
        assertThat(seen.seenAt(4_200_000).time()).isEqualTo(frame(300));
        assertThat(comment.to()).isEqualTo(frame(300));
    }

    @Test
    void aShortPressGoesOnUntilTheNext() throws Exception {
        model.press();
        pass(100);
        model.release();
        assertThat(model.stateProperty().get()).isEqualTo(State.RECORDING);
        pass(1000);
        model.press();
        handedOver();
        assertThat(voice().lengthUs()).isEqualTo(1_100_000);
        comments.undo();
        assertThat(stored()).as("one step").isEmpty();
    }

    @Test
    void whatIsThrownAwayComesBackByUndo() throws Exception {
        model.press();
        pass(800);
        model.discard();
        handedOver();
        assertThat(stored()).isEmpty();
        assertThat(bench.notice()).isEqualTo(bench.texts.get("spoken.discarded"));
        assertThat(model.bringBack()).isTrue();
        assertThat(voice().lengthUs()).isEqualTo(800_000);
        assertThat(model.bringBack()).isFalse();
    }

    @Test
    void firstItIsSaidThatAVoiceTellsWhoSpeaks() {
        bench.settings.put("voice_told", false);
        model.press();
        assertThat(model.stateProperty().get()).isEqualTo(State.IDLE);
        assertThat(bench.notice()).contains("tells who speaks");
        model.press();
        assertThat(model.stateProperty().get()).isEqualTo(State.RECORDING);
    }

    @Test
    void withoutAMicrophoneItIsSaidAndNothingIsKept() {
        for (VoiceInput.Unavailable.Reason reason : VoiceInput.Unavailable.Reason.values()) {
            SpokenViewModel deaf = model(() -> {
                throw new VoiceInput.Unavailable(reason);
            });
            deaf.press();
            assertThat(deaf.stateProperty().get()).isEqualTo(State.IDLE);
            assertThat(bench.notice()).containsIgnoringCase("microphone");
        }
        assertThat(stored()).isEmpty();
        assertThat(Files.exists(folder.resolve("voice"))).isFalse();
    }

    @Test
    void withoutACodeNothingIsSpoken() {
        review.setAnnotator("");
        model.press();
        assertThat(model.stateProperty().get()).isEqualTo(State.IDLE);
        assertThat(bench.notice()).isEqualTo(bench.texts.get("comments.why.noCode"));
    }

    private Comment spoken(SeenTrack seen, int seconds) {
        String id = CommentSession.newId();
        Path part = keeping.begin(id);
        try (VoiceWriter writer = VoiceWriter.create(part)) {
            short[] sound = new short[seconds * VoiceWriter.RATE];
            for (int i = 0; i < sound.length; i++) {
                sound[i] = (short) (9000 * Math.sin(2 * Math.PI * 300 * i / VoiceWriter.RATE));
            }
            writer.write(sound, sound.length);
            writer.finish();
        }
        Comment comment = keeping.finish(
                part, id, "A1", seen, bench.desk.durationProperty().get());
        comments.keep(comment, () -> {});
        return stored().get(0).comment();
    }

    private static final DrawnMark ARROW =
            DrawnMark.of(DrawnMark.Kind.ARROW, org.sideport.model.MarkColour.GREEN, STROKE);

    private static final SeenTrack LESSON = new SeenTrack(List.of(
            new SeenEvent.Stand(0, frame(200)),
            new SeenEvent.Drawn(500_000, ARROW),
            new SeenEvent.Removed(1_000_000, ARROW),
            new SeenEvent.Run(1_000_000, frame(200), 0.25),
            new SeenEvent.Stand(3_000_000, frame(400)),
            new SeenEvent.Run(4_000_000, frame(500), 1)));

    private void startPlaying(Comment comment) throws InterruptedException {
        model.play(comment);
        assertThat(model.stateProperty().get()).isEqualTo(State.PLAYING);
        // until the other thread has opened the loudspeaker the clock stands
        for (int i = 0; i < 5000 && !hasBegun(); i++) {
            Thread.sleep(2);
        }
    }

    private boolean hasBegun() {
        nanos.addAndGet(1000);
        model.tick();
        return model.elapsedProperty().get() > 0;
    }

    @Test
    void standingAndSlowPicturesAreTheExactFramesWithTheirDrawing() throws Exception {
        startPlaying(spoken(LESSON, 6));
        int compared = 0;
        long worst = 0;
        for (int i = 0; i < 198; i++) {
            pass(20);
            long us = model.elapsedProperty().get();
            if (us < 4_000_000) {
                SeenTrack.Seen seen = LESSON.seenAt(us);
                MediaTime shown = bench.desk.shownProperty().get().frame().start();
                long frames = Math.abs(shown.micros() - seen.time().micros() / 40_000 * 40_000) / 40_000;
                worst = Math.max(worst, frames);
                compared++;
                assertThat(live.marks()).isEqualTo(seen.marks());
            }
        }
        assertThat(compared).isGreaterThan(150);
        assertThat(worst).isZero();
    }

    @Test
    void aRunningPictureIsPlayedFromThereAndSetRightWhenItIsFarOff() throws Exception {
        startPlaying(spoken(LESSON, 8));
        pass(4100);
        assertThat(bench.desk.playingProperty().get()).isTrue();
        assertThat(bench.player.state().time().micros()).isCloseTo(20_100_000, within(60_000L));
        // the player has fallen behind by a second
        bench.player.runTo(MediaTime.ofMicros(19_100_000));
        bench.desk.tick();
        pass(1600);
        long expected = LESSON.seenAt(model.elapsedProperty().get()).time().micros();
        assertThat(bench.player.state().time().micros()).isCloseTo(expected, within(200_000L));
        model.end();
        assertThat(bench.desk.playingProperty().get()).isFalse();
        assertThat(bench.desk.rateProperty().get()).isEqualTo(1.0);
        assertThat(live.useProperty().get()).isEqualTo(LiveDrawing.Use.NONE);
        handedOver();
        assertThat(model.stateProperty().get()).isEqualTo(State.IDLE);
    }

    @Test
    void theVoiceEndsByItselfAndCaptionsAreShownAtTheirMoments() throws Exception {
        Comment comment = spoken(LESSON, 2);
        model.importCaptions(
                comment,
                Files.writeString(
                        folder.resolve("words.vtt"), "WEBVTT\n\n00:00.500 --> 00:01.500\nhold the edge here\n"));
        startPlaying(stored().get(0).comment());
        pass(440);
        assertThat(live.captionProperty().get()).isEmpty();
        pass(200);
        assertThat(live.captionProperty().get()).isEqualTo("hold the edge here");
        pass(1600);
        assertThat(live.captionProperty().get()).isEmpty();
        handedOver();
        assertThat(model.stateProperty().get()).isEqualTo(State.IDLE);
    }

    @Test
    void aLostSoundIsSaidAndThePictureIsGivenBack() throws Exception {
        Comment comment = spoken(LESSON, 2);
        Files.delete(keeping.fileOf(voice()));
        model.play(comment);
        handedOver();
        assertThat(bench.notice()).contains("not there");
        assertThat(model.stateProperty().get()).isEqualTo(State.IDLE);
        assertThat(bench.desk.mutedProperty().get()).isFalse();
    }

    @Test
    void theLanesShowWhereAVoiceBeginsAndItsLoudnessWhereThePictureRan() {
        spoken(LESSON, 6);
        VoiceLanes lanes = new VoiceLanes(comments.all(), bench.desk, keeping, bench.work, bench.texts);
        comments.all().setAll(List.copyOf(comments.all()));
        assertThat(lanes.lanes()).hasSize(2);
        Lane.Points marks = (Lane.Points) lanes.lanes().get(0);
        assertThat(marks.points()).hasSize(1);
        assertThat(marks.points().get(0).atUs()).isEqualTo(8_000_000);
        Lane.Curve curve = (Lane.Curve) lanes.lanes().get(1);
        // a quarter speed for two seconds from 8 s on, and real speed from 20 to 22 s; nothing where it only stood
        assertThat(curve.values().max(at(curve, 8.05), at(curve, 8.45))).isCloseTo(9000 / 32768f, within(0.05f));
        assertThat(curve.values().min(at(curve, 20.1), at(curve, 21.9))).isCloseTo(-9000 / 32768f, within(0.05f));
        assertThat(curve.values().max(at(curve, 8.6), at(curve, 19.9))).isNaN();
        assertThat(curve.values().max(at(curve, 22.1), at(curve, 30))).isNaN();
    }

    private static int at(Lane.Curve curve, double seconds) {
        return (int) (seconds * 1e6 / curve.stepUs());
    }
}
