package org.sideport.app.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sideport.app.Notices;
import org.sideport.app.RunLater;
import org.sideport.app.Texts;
import org.sideport.media.Fields;
import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.player.FakeVideoPlayer;

class PictureDeskTest {

    /** A hundred frames of uneven length: the odd ones last 50 ms, the even ones 30 ms. */
    private static final class UnevenFrames implements FrameSource {

        private final List<Long> decoded;
        private final List<Long> drafted = new ArrayList<>();
        private Fields shown = Fields.AUTO;
        private boolean closed;

        UnevenFrames(List<Long> decoded) {
            this.decoded = decoded;
        }

        private static long startOf(long number) {
            return number / 2 * 80_000 + number % 2 * 30_000;
        }

        @Override
        public long frameCount() {
            return 100;
        }

        @Override
        public MediaTime duration() {
            return MediaTime.ofMicros(startOf(100));
        }

        @Override
        public FrameRef frameAt(MediaTime time) {
            long number = 99;
            while (startOf(number) > time.micros()) {
                number--;
            }
            return frame(number);
        }

        @Override
        public FrameRef frame(long number) {
            return new FrameRef(
                    0,
                    (int) number,
                    number,
                    MediaTime.ofMicros(startOf(number)),
                    MediaTime.ofMicros(startOf(number + 1)));
        }

        @Override
        public FramePicture picture(FrameRef frame) {
            decoded.add(frame.number());
            return new FramePicture(1, 1, 1.0, new byte[4]);
        }

        @Override
        public FramePicture draft(FrameRef frame) {
            drafted.add(frame.number());
            return new FramePicture(1, 1, 1.0, new byte[4]);
        }

        @Override
        public void showFields(Fields fields) {
            shown = fields;
        }

        @Override
        public void close() {
            closed = true;
        }
    }

    private static final Recording RECORDING = new Recording(List.of(new Segment(
            Path.of("a.mp4"),
            "0",
            1,
            4_000_000,
            100,
            0,
            25,
            1,
            true,
            "h264",
            1,
            1,
            "1:1",
            0,
            false,
            false,
            List.of())));

    private final RunLater background = new RunLater();
    private final FakeVideoPlayer player = new FakeVideoPlayer();
    private final List<Long> decoded = new ArrayList<>();
    private final List<Long> stamped = new ArrayList<>();
    private final UnevenFrames frames = new UnevenFrames(decoded);
    private final Notices notices = new Notices(new Texts());
    private final PictureDesk desk = new PictureDesk(player, (recording, progress) -> frames, background, notices);

    @BeforeEach
    void open() {
        desk.open(RECORDING);
        background.all();
    }

    private long shown() {
        ShownFrame shown = desk.shownProperty().get();
        return shown == null ? -1 : shown.frame().number();
    }

    /** Frame 50 starts at 25 pairs of 80 ms; of what is passed while one is decoded only the newest counts. */
    @Test
    void draggingShowsDraftsAndTheWholePictureWhereThePointerRests() {
        decoded.clear();
        desk.scrub(MediaTime.ofMicros(400_000));
        desk.scrub(MediaTime.ofMicros(800_000));
        desk.scrub(MediaTime.ofMicros(2_000_000));
        background.one();
        assertThat(frames.drafted).containsExactly(10L);
        background.one();
        assertThat(frames.drafted).containsExactly(10L, 50L);
        assertThat(decoded).isEmpty();
        assertThat(shown()).isEqualTo(50);
        background.all();
        assertThat(decoded).containsExactly(50L);
        assertThat(frames.drafted).hasSize(2);
        assertThat(shown()).isEqualTo(50);
        desk.step(-1);
        background.all();
        assertThat(shown()).isEqualTo(49);
    }

    @Test
    void otherFieldsShowTheSameFrameAnew() {
        desk.step(7);
        background.all();
        decoded.clear();
        desk.showFields(Fields.SECOND);
        background.all();
        assertThat(frames.shown).isEqualTo(Fields.SECOND);
        assertThat(decoded).containsExactly(7L);
        assertThat(shown()).isEqualTo(7);
    }

    @Test
    void opensOnTheFirstFrame() {
        assertThat(shown()).isZero();
        assertThat(desk.timeProperty().get()).isEqualTo(MediaTime.ZERO);
        assertThat(desk.durationProperty().get()).isEqualTo(MediaTime.ofSeconds(4)); // fifty pairs of 80 ms
    }

    @Test
    void theTimeShownIsThatOfThePictureShown() {
        desk.seek(MediaTime.ofMicros(105_000)); // within frame 2, from 80 ms to 110 ms
        assertThat(desk.timeProperty().get()).isEqualTo(MediaTime.ZERO); // not before the picture is there
        background.all();

        assertThat(shown()).isEqualTo(2);
        assertThat(desk.timeProperty().get()).isEqualTo(MediaTime.ofMicros(80_000));
    }

    @Test
    void fastStepsLoseNoneAndDecodeOnlyTheNewest() {
        decoded.clear();
        for (int i = 0; i < 5; i++) {
            desk.step(1);
        }
        background.all();

        assertThat(shown()).isEqualTo(5);
        assertThat(decoded).containsExactly(1L, 5L);
    }

    @Test
    void stepsStopAtTheEnds() {
        desk.step(-1);
        background.all();
        assertThat(shown()).isZero();

        desk.seek(MediaTime.ofSeconds(100));
        desk.step(1);
        background.all();
        assertThat(shown()).isEqualTo(99);
    }

    @Test
    void aStampWaitsForTheStepsAskedForBefore() {
        desk.step(1);
        desk.step(1);
        desk.stamp(frame -> stamped.add(frame.number()));
        assertThat(stamped).isEmpty();
        background.all();

        assertThat(stamped).containsExactly(2L);
    }

    @Test
    void pausingShowsTheExactFrameOfThatMoment() {
        desk.play();
        player.runTo(MediaTime.ofMicros(195_000)); // within frame 5, from 190 ms
        desk.tick();
        assertThat(desk.timeProperty().get()).isEqualTo(MediaTime.ofMicros(195_000));
        assertThat(desk.liveProperty().get()).isTrue();

        desk.pause();
        background.all();
        assertThat(shown()).isEqualTo(5);
        assertThat(desk.liveProperty().get()).isFalse();
        assertThat(desk.timeProperty().get()).isEqualTo(MediaTime.ofMicros(190_000));
    }

    @Test
    void aStampWhilePlayingIsTheFrameOfTheMomentAndPlaybackGoesOn() {
        desk.play();
        player.runTo(MediaTime.ofMicros(200_000));
        desk.stamp(frame -> stamped.add(frame.number()));
        player.runTo(MediaTime.ofMicros(900_000));
        background.all();

        assertThat(stamped).containsExactly(5L);
        assertThat(desk.playingProperty().get()).isTrue();
    }

    @Test
    void theExactFrameStaysUntilThePlayerShowsItsOwn() {
        player.setLive(false);
        desk.play();
        desk.tick();

        assertThat(desk.liveProperty().get()).isFalse();
    }

    @Test
    void playingFromTheLastFrameStartsAgain() {
        desk.seek(MediaTime.ofSeconds(4));
        background.all();
        desk.play();

        assertThat(player.state().time()).isEqualTo(MediaTime.ZERO);
    }

    @Test
    void theEndOfTheRecordingShowsItsLastFrame() {
        desk.play();
        player.end();
        background.all();

        assertThat(desk.playingProperty().get()).isFalse();
        assertThat(shown()).isEqualTo(99);
    }

    @Test
    void aPlayerThatFailsLeavesTheExactFramesAndSaysSo() {
        desk.play();
        player.fail();
        background.all();

        assertThat(desk.playingProperty().get()).isFalse();
        assertThat(notices.currentProperty().get()).isNotNull();
        desk.step(1);
        background.all();
        assertThat(shown()).isEqualTo(1);
    }

    private static PlayPlan.Stretch stretch(double from, double to) {
        return new PlayPlan.Stretch(MediaTime.ofSeconds(from), MediaTime.ofSeconds(to));
    }

    private void runTo(double seconds) {
        player.runTo(MediaTime.ofSeconds(seconds));
        background.all();
    }

    @Test
    void theChosenStretchGoesRoundAndRound() {
        desk.options().chosenProperty().set(stretch(1, 2));
        desk.options().toggleLoop();
        desk.play();
        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(1));
        runTo(1.9);
        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(1.9));
        runTo(2.05);
        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(1));
        runTo(2);
        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(1));

        desk.options().chosenProperty().set(null); // nothing selected any more
        runTo(2.5);
        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(2.5));
        assertThat(desk.playingProperty().get()).isTrue();
    }

    @Test
    void aStretchUpToTheEndOfTheRecordingGoesRoundToo() {
        desk.options().chosenProperty().set(stretch(3, 4));
        desk.options().toggleLoop();
        desk.play();
        player.end();

        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(3));
        assertThat(player.state().isPlaying()).isTrue();
        assertThat(desk.playingProperty().get()).isTrue();
    }

    @Test
    void onlyWhatIsMarkedIsPlayedAndThenItStands() {
        desk.options().markedProperty().set(List.of(stretch(0.4, 0.8), stretch(3, 3.5)));
        desk.options().toggleMarkedOnly();
        desk.play();
        assertThat(player.state().time()).isEqualTo(MediaTime.ZERO); // not worth a jump
        runTo(0.81);
        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(3));
        runTo(3.51);

        assertThat(desk.playingProperty().get()).isFalse();
        assertThat(desk.timeProperty().get().seconds()).isBetween(3.4, 3.5);
    }

    @Test
    void whatCannotBePlayedOnItsOwnSaysWhy() {
        desk.options().toggleLoop();
        assertThat(desk.options().loopProperty().get()).isFalse();
        assertThat(notices.currentProperty().get())
                .extracting(org.sideport.app.Notice::what)
                .isEqualTo("Select a phase to play it again and again");
        desk.options().toggleMarkedOnly();
        assertThat(desk.options().markedOnlyProperty().get()).isFalse();
    }

    @Test
    void ratesGoUpToEight() {
        desk.setRate(8);
        assertThat(player.state().rate()).isEqualTo(8);
        assertThat(TransportBar.nextRate(4, 1)).isEqualTo(8);
        assertThat(TransportBar.nextRate(8, 1)).isEqualTo(8);
    }

    @Test
    void closingLetsGoOfTheFrames() {
        desk.close();
        background.all();

        assertThat(frames.closed).isTrue();
        assertThat(desk.shownProperty().get()).isNull();
    }

    @Test
    void aRecordingThatCannotBeOpenedSaysWhy() {
        PictureDesk broken = new PictureDesk(
                player,
                (recording, progress) -> {
                    progress.report(0.5, "reading");
                    throw new org.sideport.model.InputException("the file is no video", "a.mp4", "choose another");
                },
                background,
                notices);
        broken.open(RECORDING);
        background.all();

        assertThat(broken.isReady()).isFalse();
        assertThat(notices.currentProperty().get())
                .extracting(org.sideport.app.Notice::what)
                .isEqualTo("the file is no video");
    }
}
