package org.sideport.app.marking;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.Rubric;
import org.sideport.player.DemoRecordings;

/** Counted and measured items of a unit's own rubric, evidence and agreed actions. D-001 has 25 frames a second. */
class NumberedItemsTest {

    private static final String RUBRIC = """
            {"id": "own", "version": "1.0.0", "title": "Own", "procedure": "phaco", "source": "made for a test",
              "levels": [], "domains": [{"id": "d", "title": "D"}],
              "items": [
                {"id": "slips", "domain": "d", "title": "Slips", "kind": "count",
                  "bands": [{"from": 0, "points": 2}, {"from": 1, "points": 1}, {"from": 3, "points": 0}]},
                {"id": "rhexis_time", "domain": "d", "title": "Time of the rhexis", "kind": "measured",
                  "phase": "rhexis", "unit": "s", "quantity": "phase_time",
                  "bands": [{"from": 0, "points": 2}, {"from": 3, "points": 1}]}]}
            """;

    @TempDir
    Path folder;

    private Bench bench;
    private MarkingViewModel model;
    private Rubric.Item slips;
    private Rubric.Item time;

    @BeforeEach
    void open() throws IOException {
        bench = new Bench(folder);
        Path own = Files.createDirectories(bench.workspace.dir().resolve("rubrics"));
        Files.writeString(own.resolve("own.json"), RUBRIC);
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        ReviewViewModel review = bench.review();
        bench.current.open("C-1");
        review.setAnnotator("A1");
        bench.desk.seek(frame(100));
        assertThat(review.tagByKey(keyOf("rhexis"))).isTrue();
        bench.desk.seek(frame(180));
        review.tagByKey("0");
        model = bench.marking();
        model.setAssessor("A1");
        model.setRubric(model.rubrics().stream()
                .filter(r -> r.id().equals("own"))
                .findFirst()
                .orElseThrow());
        slips = model.rubricProperty().get().items().get(0);
        time = model.rubricProperty().get().items().get(1);
    }

    private String keyOf(String term) {
        return bench.current.opened().procedure().find(term).orElseThrow().key();
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private static MediaTime frame(long number) {
        return MediaTime.ofMicros(number * 40_000);
    }

    @Test
    void aDigitIsTheCountOfACountedItem() {
        model.focus(slips);
        assertThat(model.markFocused(2)).isTrue();
        assertThat(model.scoreOf(slips)).isEqualTo(new ItemScore.Marked("slips", 1, 2.0, "", List.of()));
        model.markValue(slips, "0");
        assertThat(model.scoreOf(slips).pointsOrNull()).isEqualTo(2);
    }

    @Test
    void whatIsNoNumberOrNoCountIsSaidAndChangesNothing() {
        model.markValue(slips, "two");
        assertThat(bench.notice()).contains("two is no number");
        model.markValue(slips, "1,5");
        assertThat(bench.notice()).contains("cannot be 1.5");
        assertThat(model.scoreOf(slips)).isNull();
    }

    /** 80 frames of 40 ms are 3.2 s, which lies in the band from 3 s on. */
    @Test
    void aMeasuredItemTakesTheTimeOfItsPhaseFromTheTags() {
        model.markFromTags(time);
        assertThat(model.scoreOf(time)).isEqualTo(new ItemScore.Marked("rhexis_time", 1, 3.2, "", List.of()));
    }

    @Test
    void aTimeAcrossAnAcceptedCutIsNotTaken() {
        var cuts = bench.cuts(bench.review());
        bench.desk.seek(frame(140));
        cuts.addHere();
        model.markFromTags(time);
        assertThat(bench.notice()).contains("unsure");
        assertThat(model.scoreOf(time)).isNull();
    }

    @Test
    void aDigitMeansNothingToAMeasuredItem() {
        model.focus(time);
        assertThat(model.markFocused(1)).isFalse();
    }

    @Test
    void evidenceAndAgreedActionsAreKept() {
        model.markValue(slips, "1");
        bench.desk.seek(frame(120));
        model.toggleEvidence(slips);
        bench.desk.seek(frame(110));
        model.toggleEvidence(slips);
        assertThat(model.scoreOf(slips).evidence()).containsExactly(frame(110), frame(120));
        model.toggleEvidence(slips, frame(120));
        assertThat(model.scoreOf(slips).evidence()).containsExactly(frame(110));
        model.agree(List.of("wider wound", " ", ""));
        assertThat(model.marksProperty().get().rating().actions()).containsExactly("wider wound");
    }
}
