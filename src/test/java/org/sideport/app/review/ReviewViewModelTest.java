package org.sideport.app.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.picture.PlayPlan;
import org.sideport.media.FramePicture;
import org.sideport.media.RecordingFrames;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Progress;
import org.sideport.model.Severity;
import org.sideport.player.DemoRecordings;
import org.sideport.player.LivePicture;

/** On D-001: 25 frames a second, so frame n starts at n times 40 ms. */
class ReviewViewModelTest {

    @TempDir
    Path folder;

    private Bench bench;
    private ReviewViewModel model;

    private static MediaTime frame(long number) {
        return MediaTime.ofMicros(number * 40_000);
    }

    @BeforeEach
    void open() {
        bench = new Bench(folder);
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        model = bench.review();
        bench.current.open("C-1");
        model.setAnnotator("A1");
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private void at(long number) {
        bench.desk.seek(frame(number));
    }

    @Test
    void aKeyStartsItsPhaseAtTheFrameOnTheScreen() {
        at(100);
        bench.desk.step(1);
        assertThat(model.tagByKey("1")).isTrue();

        assertThat(bench.stored("C-1", "A1").spans())
                .containsExactly(new PhaseSpan("incision", frame(101), null, Operator.TRAINEE));
        assertThat(model.runningTermProperty().get()).isEqualTo("incision");
    }

    @Test
    void whilePlayingATagSnapsToTheFrameOfTheMoment() {
        bench.desk.play();
        bench.player.runTo(MediaTime.ofMicros(4_055_000)); // frame 101 is on the screen from 4.04 s to 4.08 s
        model.tagByKey("t");

        assertThat(bench.stored("C-1", "A1").spans().get(0).start()).isEqualTo(frame(101));
        assertThat(bench.desk.playingProperty().get()).isTrue();
    }

    @Test
    void theNextPhaseEndsTheOneBeforeAndZeroEndsIntoIdle() {
        at(100);
        model.tagByKey("1");
        at(150);
        model.tagByKey("2");
        at(200);
        model.tagByKey("0");

        assertThat(bench.stored("C-1", "A1").spans())
                .containsExactly(
                        new PhaseSpan("incision", frame(100), frame(150), Operator.TRAINEE),
                        new PhaseSpan("capsulotomy", frame(150), frame(200), Operator.TRAINEE));
        assertThat(model.runningTermProperty().get()).isNull();
    }

    @Test
    void theHandsChosenGoWithTheNextPhase() {
        model.nextOperator();
        model.tagByKey("3");

        assertThat(bench.stored("C-1", "A1").spans().get(0).operator()).isEqualTo(Operator.TRAINER);
    }

    @Test
    void aDroppedBoundarySnapsToAFrameAndCanBeUndone() {
        at(100);
        model.tagByKey("1");
        at(200);
        model.tagByKey("2");

        model.dropBoundary(frame(200), MediaTime.ofMicros(5_017_000)); // within frame 125, from 5.00 s
        assertThat(bench.stored("C-1", "A1").spans().get(0).end()).isEqualTo(frame(125));
        assertThat(bench.stored("C-1", "A1").spans().get(1).start()).isEqualTo(frame(125));

        model.undo();
        assertThat(bench.stored("C-1", "A1").spans().get(1).start()).isEqualTo(frame(200));
        assertThat(model.canRedoProperty().get()).isTrue();
    }

    @Test
    void draggingABoundaryShowsTheFrameUnderIt() {
        at(100);
        model.tagByKey("1");
        model.dragBoundary(frame(100), MediaTime.ofMicros(6_020_000));

        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(150));
    }

    @Test
    void somebodyElsesTagsAreToLookAtOnlyAndOwnWorkGoesOnAfterwards() {
        at(100);
        model.tagByKey("1");
        bench.workspace.change(stores -> stores.taggings()
                .save(
                        "C-1",
                        "A2",
                        org.sideport.model.Tagging.EMPTY.withSpans(
                                java.util.List.of(new PhaseSpan("rhexis", frame(10), frame(20), null)))));

        model.lookAt("A2");
        assertThat(model.whyNoTagging()).contains("A2");
        assertThat(model.rows()).hasSize(1);
        at(300);
        model.tagByKey("2");
        model.dropBoundary(frame(20), frame(30));
        model.relabel(new PhaseSpan("rhexis", frame(10), frame(20), null), "incision");
        assertThat(bench.stored("C-1", "A2").spans())
                .containsExactly(new PhaseSpan("rhexis", frame(10), frame(20), null));

        model.lookAt("");
        assertThat(model.whyNoTagging()).isNull();
        model.undo();
        assertThat(bench.stored("C-1", "A1").spans()).isEmpty();
    }

    @Test
    void anEventIsSetOnTheFrameWhereItWasBegun() {
        bench.desk.play();
        bench.player.runTo(MediaTime.ofSeconds(10.01));
        model.beginEvent();
        assertThat(bench.desk.playingProperty().get()).isFalse();
        bench.desk.step(40);
        model.saveEvent("iris_prolapse", Severity.MINOR, " at the side port ");

        PointEvent expected = new PointEvent("iris_prolapse", frame(250), Severity.MINOR, "at the side port");
        assertThat(bench.stored("C-1", "A1").events()).containsExactly(expected);

        model.changeEvent(expected);
        model.saveEvent("iris_injury", null, "");
        assertThat(bench.stored("C-1", "A1").events())
                .containsExactly(new PointEvent("iris_injury", frame(250), null, ""));
    }

    @Test
    void deletingTakesWhatIsSelected() {
        at(100);
        model.tagByKey("1");
        model.deleteSelected();
        assertThat(bench.stored("C-1", "A1").spans()).hasSize(1); // nothing was selected
        assertThat(bench.notice()).isNotEmpty();

        model.go(model.rows().get(0));
        model.deleteSelected();
        assertThat(bench.stored("C-1", "A1").spans()).isEmpty();
    }

    @Test
    void aSpanCanBeCalledOtherwiseAndGivenOtherHands() {
        model.tagByKey("1");
        PhaseSpan span = model.taggingProperty().get().spans().get(0);
        model.relabel(span, "rhexis");
        model.setOperator(model.taggingProperty().get().spans().get(0), Operator.ASSISTED);

        assertThat(bench.stored("C-1", "A1").spans())
                .containsExactly(new PhaseSpan("rhexis", MediaTime.ZERO, null, Operator.ASSISTED));
    }

    @Test
    void annotatorsTagApartFromOneAnother() {
        model.tagByKey("1");
        model.setAnnotator("A2");

        assertThat(model.rows()).isEmpty();
        model.tagByKey("2");
        assertThat(bench.stored("C-1", "A1").spans())
                .extracting(PhaseSpan::phase)
                .containsExactly("incision");
        assertThat(bench.stored("C-1", "A2").spans())
                .extracting(PhaseSpan::phase)
                .containsExactly("capsulotomy");
    }

    @Test
    void withoutACodeNothingIsTaggedAndItSaysWhy() {
        model.setAnnotator("");
        model.tagByKey("1");

        assertThat(model.taggingProperty().get()).isNull();
        assertThat(bench.notice()).isEqualTo(model.whyNoTagging()).contains("Tagging as");
    }

    @Test
    void aCaseWithoutRecordingSaysThatThereIsNothingToTag() {
        Bench.addCase(bench.workspace, "C-2");
        bench.current.open("C-2");

        assertThat(model.whyNoTagging()).isEqualTo("There is no recording to tag");
    }

    @Test
    void timesFollowEveryEdit() {
        at(100);
        model.tagByKey("1");
        at(150);
        model.tagByKey("0");

        // 50 frames of 40 ms
        assertThat(model.timingProperty().get().phases().get(0).activeUs()).isEqualTo(2_000_000L);
        model.undo();
        model.undo();
        assertThat(model.timingProperty().get()).isNull();
    }

    @Test
    void boundariesCanBeWalkedThrough() {
        at(100);
        model.tagByKey("1");
        at(150);
        model.tagByKey("0");
        at(0);
        model.goToBoundary(true);
        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(100));
        model.goToBoundary(true);
        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(150));
        model.goToBoundary(false);
        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(100));
    }

    @Test
    void framesAcrossTheFileBorderAreOneTimeline() {
        at(924);
        bench.desk.step(1); // the second file starts with frame 925, by D-001-truth.json
        model.tagByKey("3");

        assertThat(bench.desk.shownProperty().get().frame().segment()).isEqualTo(1);
        assertThat(bench.stored("C-1", "A1").spans().get(0).start()).isEqualTo(MediaTime.ofSeconds(37));
        assertThat(model.laneProperty().get().borders()).containsExactly(MediaTime.ofSeconds(37));
    }

    @Test
    void anUnknownKeyMeansNothing() {
        assertThat(model.tagByKey("ß")).isFalse();
        assertThat(model.tagByKey("")).isFalse();
    }

    /** What a player would have on its screen: the frame, in colours that are a little off. */
    private LivePicture pictureOf(long number) {
        try (RecordingFrames frames =
                RecordingFrames.open(DemoRecordings.recording(DemoRecordings.D001), Progress.NONE)) {
            FramePicture exact = frames.picture(frames.frame(number));
            byte[] bgra = exact.bgra().clone();
            for (int i = 0; i < bgra.length; i++) {
                bgra[i] = (byte) ((bgra[i] & 0xFF) * 0.95 + 6);
            }
            return new LivePicture(exact.width(), exact.height(), bgra, 1, 0);
        }
    }

    @Test
    void whilePlayingATagIsPutRightToTheFrameThatWasOnTheScreen() {
        bench.desk.play();
        bench.player.show(pictureOf(108));
        bench.player.runTo(MediaTime.ofMicros(4_055_000)); // the player takes it for frame 101
        model.tagByKey("t");

        assertThat(bench.stored("C-1", "A1").spans().get(0).start()).isEqualTo(frame(108));
        assertThat(bench.desk.playingProperty().get()).isTrue();
        model.undo();
        assertThat(bench.stored("C-1", "A1").spans()).isEmpty();
        assertThat(model.canUndoProperty().get()).isFalse();
    }

    @Test
    void pausingStandsOnTheFrameThatWasOnTheScreen() {
        bench.desk.play();
        bench.player.show(pictureOf(94));
        bench.player.runTo(MediaTime.ofMicros(4_055_000));
        model.beginEvent();

        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(94));
        assertThat(model.eventDraftProperty().get().at()).isEqualTo(frame(94));
    }

    @Test
    void whatIsTaggedCanBePlayedOnItsOwn() {
        at(100);
        model.tagByKey("1");
        at(200);
        model.tagByKey("0");
        assertThat(bench.desk.options().markedProperty().get())
                .containsExactly(new PlayPlan.Stretch(frame(100), frame(200)));
        assertThat(bench.desk.options().chosenProperty().get()).isNull();

        model.selectedSpanProperty().set(bench.stored("C-1", "A1").spans().get(0));
        assertThat(bench.desk.options().chosenProperty().get()).isEqualTo(new PlayPlan.Stretch(frame(100), frame(200)));
    }
}
