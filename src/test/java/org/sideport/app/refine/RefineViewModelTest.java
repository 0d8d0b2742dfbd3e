package org.sideport.app.refine;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.LongStream;
import javafx.beans.property.SimpleObjectProperty;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.app.timeline.FrameGrid;
import org.sideport.model.MediaTime;
import org.sideport.player.DemoRecordings;
import org.sideport.timing.Boundary;
import org.sideport.workflow.TagRecording;

/** On D-001: 2228 frames, 25 a second, so frame n starts at n times 40 ms. Two phases and an event are tagged. */
class RefineViewModelTest {

    @TempDir
    Path folder;

    private Bench bench;
    private ReviewViewModel review;
    private RefineViewModel model;
    private List<Long> candidates = List.of();
    private final SimpleObjectProperty<@Nullable FrameGrid> frames = new SimpleObjectProperty<>(
            new FrameGrid(LongStream.range(0, 2228).map(n -> n * 40_000).toArray()));

    private static MediaTime frame(long number) {
        return MediaTime.ofMicros(number * 40_000);
    }

    private static Boundary phase(long frame) {
        return new Boundary(Boundary.Kind.PHASE, frame(frame));
    }

    @BeforeEach
    void open() {
        bench = new Bench(folder);
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        review = bench.review();
        bench.current.open("C-1");
        review.setAnnotator("A1");
        model = new RefineViewModel(review, frames, () -> candidates, bench.notices, bench.texts);
        tag(100, "1");
        tag(200, "2");
        tag(300, "0");
        bench.desk.seek(frame(250));
        review.beginEvent();
        review.saveEvent("iris_prolapse", null, "");
        bench.desk.seek(frame(0));
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private void tag(long frame, String key) {
        bench.desk.seek(frame(frame));
        review.tagByKey(key);
    }

    private Set<Boundary> stored() {
        return new TagRecording(bench.workspace).open("C-1", "A1").confirmed();
    }

    @Test
    void itWalksFromBoundaryToBoundaryAndConfirmsEach() {
        model.toggle();
        assertThat(model.totalProperty().get()).isEqualTo(4);
        assertThat(model.currentProperty().get()).isEqualTo(phase(100));
        assertThat(model.what()).isEqualTo("Incision starts");
        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(100));

        model.confirm();
        assertThat(model.currentProperty().get()).isEqualTo(phase(200));
        assertThat(model.what()).isEqualTo("Incision ends, Capsulotomy starts");
        model.move(-10);
        model.move(1);
        assertThat(model.movedBy()).isEqualTo(-9);
        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(191));
        model.confirm();
        assertThat(model.what()).isEqualTo("Iris prolapse");
        model.move(1);
        model.confirm();
        model.confirm();

        assertThat(model.confirmedProperty().get()).isEqualTo(4);
        assertThat(stored())
                .containsExactlyInAnyOrder(
                        phase(100), phase(191), new Boundary(Boundary.Kind.EVENT, frame(251)), phase(300));
        assertThat(bench.stored("C-1", "A1").spans().get(1).start()).isEqualTo(frame(191));
        assertThat(bench.stored("C-1", "A1").events().get(0).at()).isEqualTo(frame(251));
        assertThat(model.isConfirmedHere()).isTrue();
        assertThat(model.activeProperty().get()).isTrue();
    }

    @Test
    void movingAloneStoresNothingAndConfirmingIsOneStepForUndo() {
        model.toggle();
        model.move(1);
        model.move(10);
        model.move(-3);
        assertThat(bench.stored("C-1", "A1").spans().get(0).start()).isEqualTo(frame(100));

        model.confirm();
        assertThat(bench.stored("C-1", "A1").spans().get(0).start()).isEqualTo(frame(108));
        model.undo();
        assertThat(bench.stored("C-1", "A1").spans().get(0).start()).isEqualTo(frame(100));
        assertThat(stored()).isEmpty();
        // and it stands there again
        assertThat(model.currentProperty().get()).isEqualTo(phase(100));
        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(100));
    }

    @Test
    void whatIsConfirmedUnmovedAndUndoneIsRoughAgain() {
        model.toggle();
        model.confirm();
        assertThat(model.confirmedProperty().get()).isEqualTo(1);
        model.undo();
        assertThat(model.confirmedProperty().get()).isZero();
        assertThat(model.currentProperty().get()).isEqualTo(phase(100));
        model.redo();
        assertThat(model.confirmedProperty().get()).isEqualTo(1);
    }

    @Test
    void itBeginsAtTheNextRoughBoundaryFromThePictureOn() {
        bench.desk.seek(frame(120));
        model.toggle();
        assertThat(model.currentProperty().get()).isEqualTo(phase(200));
        model.confirm();
        model.confirm();
        model.confirm();
        // from the last it goes on with the first that is rough
        assertThat(model.currentProperty().get()).isEqualTo(phase(100));
    }

    @Test
    void backAndSkipGoWithoutConfirming() {
        model.toggle();
        model.skip();
        assertThat(model.currentProperty().get()).isEqualTo(phase(200));
        model.move(5);
        model.back();
        assertThat(model.currentProperty().get()).isEqualTo(phase(100));
        model.back();
        assertThat(bench.notice()).isEqualTo("This is the first boundary");
        assertThat(stored()).isEmpty();
        assertThat(bench.stored("C-1", "A1").spans().get(1).start()).isEqualTo(frame(200));
    }

    @Test
    void aBoundaryGoesAsFarAsThereIsRoom() {
        tag(203, "3");
        bench.desk.seek(frame(199));
        model.toggle();
        assertThat(model.currentProperty().get()).isEqualTo(phase(200));
        model.move(10);
        assertThat(model.positionProperty().get()).isEqualTo(frame(202));
        model.move(1);
        assertThat(bench.notice()).contains("no more room");
        assertThat(model.positionProperty().get()).isEqualTo(frame(202));
    }

    @Test
    void candidatesNearByAreOfferedInOrderOnTheirFrames() {
        // 6 s before, 40 ms and 3 s after frame 200 at 8.000 s; the second between two frames
        candidates = List.of(2_000_000L, 8_050_000L, 11_000_000L, 19_000_000L);
        model.toggle();
        model.skip();
        assertThat(model.candidates()).containsExactly(frame(201), frame(275));
        model.jump(true);
        assertThat(model.positionProperty().get()).isEqualTo(frame(201));
        model.jump(true);
        assertThat(model.positionProperty().get()).isEqualTo(frame(275));
        model.jump(true);
        assertThat(bench.notice()).contains("nowhere near by after");
        model.jump(false);
        assertThat(model.positionProperty().get()).isEqualTo(frame(201));
    }

    @Test
    void theFramesShowWhatWouldRunOnThem() {
        model.toggle();
        model.move(-2);
        assertThat(model.phaseAt(frame(97))).isNull();
        assertThat(model.phaseAt(frame(98))).isEqualTo("incision");
        assertThat(review.taggingProperty().get().spanAt(frame(98))).isNull();
    }

    @Test
    void withoutTagsOrCodeItSaysWhyNot() {
        review.setAnnotator("A2");
        model.toggle();
        assertThat(model.activeProperty().get()).isFalse();
        assertThat(bench.notice()).contains("Nothing is tagged yet");
        review.setAnnotator("");
        model.toggle();
        assertThat(bench.notice()).contains("Tagging as");
    }

    @Test
    void whatIsConfirmedIsSoAfterTheCaseIsOpenedAgain() {
        model.toggle();
        model.confirm();
        review.setAnnotator("A2");
        assertThat(model.activeProperty().get()).isFalse();
        review.setAnnotator("A1");
        assertThat(model.confirmedProperty().get()).isEqualTo(1);
        review.dropBoundary(frame(100), frame(90));
        assertThat(model.confirmedProperty().get()).isZero();
    }
}
