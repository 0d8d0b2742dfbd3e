package org.sideport.app.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.RunLater;
import org.sideport.app.picture.FrameSource;
import org.sideport.app.timeline.FrameGrid;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.Stretch;
import org.sideport.app.timeline.TimelineEdit;
import org.sideport.media.trace.Finding;
import org.sideport.media.trace.FindingKind;
import org.sideport.media.trace.Proposal;
import org.sideport.media.trace.TraceKind;
import org.sideport.media.trace.Traces;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.player.DemoRecordings;
import org.sideport.workflow.RecordingTraces;

/** Lanes of what is measured, and edits of the timeline as they reach the store; D-001 has 2228 frames of 40 ms. */
class RecordingLanesTest {

    @TempDir
    Path folder;

    private Bench bench;
    private ReviewViewModel model;
    private TimelineEditing editing;
    private RecordingLanes lanes;
    private final RunLater strip = new RunLater();
    private final RunLater measuring = new RunLater();

    private static MediaTime frame(long number) {
        return MediaTime.ofMicros(number * 40_000);
    }

    @BeforeEach
    void open() {
        bench = new Bench(folder.resolve("workspace"));
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        model = bench.review();
        editing = new TimelineEditing(model);
        lanes = new RecordingLanes(
                bench.desk, FrameSource::of, (recording, progress) -> measured(), strip, measuring, bench.texts);
        bench.current.open("C-1");
        model.setAnnotator("A1");
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private static RecordingTraces.Result measured() {
        Map<TraceKind, float[]> values = new EnumMap<>(TraceKind.class);
        for (TraceKind kind : TraceKind.values()) {
            float[] trace = new float[400];
            for (int i = 0; i < trace.length; i++) {
                trace[i] = i;
            }
            trace[399] = 1e6f; // one far value
            values.put(kind, trace);
        }
        return new RecordingTraces.Result(
                new Traces(0, 200_000, 89_120_000, List.of(0L), List.of(), values),
                List.of(
                        new Finding(FindingKind.FROZEN, frame(100), frame(150), "still", 0.9),
                        new Finding(FindingKind.JUMP_CUT, frame(200), frame(201), "jump", 0.9)),
                List.of(new Proposal(Proposal.Kind.BOUNDARY, frame(300), frame(300), "level", 0.5)));
    }

    private List<String> ids() {
        return lanes.measuredProperty().get().lanes().stream().map(Lane::id).toList();
    }

    @Test
    void theStartsOfAllFramesComeInTheBackground() {
        assertThat(lanes.framesProperty().get()).isNull();
        strip.one();

        FrameGrid frames = lanes.framesProperty().get();
        assertThat(frames.size()).isEqualTo(2228); // by D-001-truth.json
        assertThat(frames.start(875)).isEqualTo(35_000_000);
    }

    @Test
    void tracesFindingsAndProposalsBecomeLanesAndPlacesToSnapTo() {
        List<String> all = List.of("pictures", "activity", "sharpness", "findings");
        assertThat(ids()).as("from the start, so that nothing moves").isEqualTo(all);
        measuring.one();

        assertThat(ids()).isEqualTo(all);
        RecordingLanes.Measured found = lanes.measuredProperty().get();
        assertThat(found.doubts()).containsExactly(new Stretch(4_000_000, 6_000_000));
        assertThat(found.cuts()).containsExactly(8_040_000L);
        assertThat(found.candidates()).containsExactly(12_000_000L);
        // the far value is not what the lane is scaled to
        assertThat(((Lane.Curve) found.lanes().get(1)).high()).isLessThan(400);
    }

    @Test
    void whatComesForARecordingThatIsNoLongerOpenIsLeft() {
        bench.desk.close();
        measuring.all();
        strip.all();

        assertThat(lanes.measuredProperty().get()).isEqualTo(RecordingLanes.Measured.NONE);
        assertThat(lanes.framesProperty().get()).isNull();
    }

    // ---- edits

    private List<PhaseSpan> stored() {
        return bench.stored("C-1", "A1").spans();
    }

    private void tag(long frame, String key) {
        bench.desk.seek(frame(frame));
        model.tagByKey(key);
    }

    @Test
    void aBlockIsSplitJoinedAndBothAreUndone() {
        tag(100, "1");
        tag(200, "0");
        editing.edit(new TimelineEdit.Split(stored().get(0), 6_000_000));
        assertThat(stored())
                .containsExactly(
                        new PhaseSpan("incision", frame(100), frame(150), Operator.TRAINEE),
                        new PhaseSpan("incision", frame(150), frame(200), Operator.TRAINEE));

        editing.edit(new TimelineEdit.Merge(List.copyOf(stored())));
        assertThat(stored()).containsExactly(new PhaseSpan("incision", frame(100), frame(200), Operator.TRAINEE));

        model.undo();
        assertThat(stored()).hasSize(2);
        model.undo();
        assertThat(stored()).hasSize(1);
    }

    @Test
    void joiningTakesTheLongestsNameAndTheIdleTimeBetween() {
        tag(100, "1");
        tag(110, "0");
        tag(150, "2");
        tag(250, "0");
        editing.edit(new TimelineEdit.Merge(List.copyOf(stored())));

        assertThat(stored()).containsExactly(new PhaseSpan("capsulotomy", frame(100), frame(250), Operator.TRAINEE));
    }

    @Test
    void whatDoesNotLieSideBySideIsNotJoined() {
        tag(100, "1");
        tag(150, "2");
        tag(200, "3");
        List<PhaseSpan> before = stored();
        editing.edit(new TimelineEdit.Merge(List.of(before.get(0), before.get(2))));

        assertThat(stored()).isEqualTo(before);
        assertThat(bench.notice()).isEqualTo("another phase lies between those selected");
    }

    @Test
    void severalItemsAreMovedCalledOtherwiseAndDeletedInOneStep() {
        tag(100, "1");
        tag(150, "2");
        tag(200, "0");
        bench.desk.seek(frame(120));
        model.beginEvent();
        model.saveEvent("iris_prolapse", null, "");
        PointEvent event = bench.stored("C-1", "A1").events().get(0);
        List<Object> all = new ArrayList<>(stored());
        all.add(event);

        editing.edit(new TimelineEdit.MoveItems(Set.copyOf(all), 400_000));
        assertThat(stored())
                .containsExactly(
                        new PhaseSpan("incision", frame(110), frame(160), Operator.TRAINEE),
                        new PhaseSpan("capsulotomy", frame(160), frame(210), Operator.TRAINEE));
        assertThat(bench.stored("C-1", "A1").events().get(0).at()).isEqualTo(frame(130));

        editing.edit(new TimelineEdit.Relabel(Set.copyOf(stored()), "rhexis"));
        assertThat(stored()).extracting(PhaseSpan::phase).containsExactly("rhexis", "rhexis");

        Set<Object> everything = Set.of(
                new TaggedLanes.Group(stored()),
                bench.stored("C-1", "A1").events().get(0));
        editing.edit(new TimelineEdit.Delete(everything));
        assertThat(bench.stored("C-1", "A1").isEmpty()).isTrue();
        model.undo();
        model.undo();
        model.undo();
        assertThat(stored().get(0)).isEqualTo(new PhaseSpan("incision", frame(100), frame(150), Operator.TRAINEE));
    }

    @Test
    void nothingIsMovedOverAnotherOrOutOfTheRecording() {
        tag(100, "1");
        tag(150, "2");
        tag(200, "0");
        List<PhaseSpan> before = stored();
        editing.edit(new TimelineEdit.MoveItems(Set.of(before.get(0)), 400_000));
        assertThat(bench.notice()).contains("overlaps");
        editing.edit(new TimelineEdit.MoveItems(Set.of(before.get(0)), -8_000_000));
        assertThat(bench.notice()).contains("before the recording");
        editing.edit(new TimelineEdit.MoveItems(Set.of(before.get(1)), 90_000_000));
        assertThat(bench.notice()).contains("beyond the end");

        assertThat(stored()).isEqualTo(before);
    }

    @Test
    void theListFollowsWhatIsSelectedOnTheTimeline() {
        tag(100, "1");
        editing.selected(Set.of(stored().get(0)));
        assertThat(model.selectedSpanProperty().get()).isEqualTo(stored().get(0));
        editing.selected(Set.of());
        assertThat(model.selectedSpanProperty().get()).isNull();
    }
}
