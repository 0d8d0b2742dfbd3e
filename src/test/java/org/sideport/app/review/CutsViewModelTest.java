package org.sideport.app.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.model.Cut;
import org.sideport.model.CutState;
import org.sideport.model.MediaTime;
import org.sideport.player.DemoRecordings;

/** On the first file of D-001: 25 frames a second, so frame n starts at n times 40 ms. It was drawn in one go, without a cut. */
class CutsViewModelTest {

    private static final MediaTime SEEN_AT = MediaTime.ofMicros(150 * 40_000);

    @TempDir
    Path folder;

    private Bench bench;
    private ReviewViewModel review;
    private CutsViewModel model;

    @BeforeEach
    void open() {
        bench = new Bench(folder);
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001[0]);
        review = bench.review();
        model = bench.cuts(review);
        bench.current.open("C-1");
        review.setAnnotator("A1");
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private void tagAcross() {
        bench.desk.seek(MediaTime.ofMicros(100 * 40_000));
        review.tagByKey("1");
        bench.desk.seek(MediaTime.ofMicros(200 * 40_000));
        review.tagByKey("0");
    }

    @Test
    void aCutThatAPersonSeesMakesTheTimesShownUnsureAtOnce() {
        tagAcross();
        assertThat(review.timingProperty().get().unsure().any()).isFalse();
        bench.desk.seek(SEEN_AT);
        model.addHere();
        assertThat(model.cuts()).singleElement().satisfies(cut -> {
            assertThat(cut.to()).isEqualTo(SEEN_AT);
            assertThat(cut.decidedBy()).isEqualTo("A1");
        });
        assertThat(review.timingProperty().get().phases().get(0).unsure().active())
                .isTrue();
        model.dismiss(model.cuts().get(0));
        assertThat(review.timingProperty().get().unsure().any()).isFalse();
        model.reopen(model.cuts().get(0));
        assertThat(model.cuts()).extracting(Cut::state).containsExactly(CutState.PROPOSED);
        model.accept(model.cuts().get(0));
        assertThat(review.timingProperty().get().unsure().any()).isTrue();
        bench.desk.seek(MediaTime.ZERO);
        model.go(model.cuts().get(0));
        assertThat(bench.desk.timeProperty().get()).isEqualTo(SEEN_AT);
    }

    @Test
    void decidingNeedsACode() {
        review.setAnnotator("");
        model.addHere();
        assertThat(model.cuts()).isEmpty();
        assertThat(bench.notice()).contains("Enter your code");
    }

    @Test
    void cutsBelongToTheCaseThatIsOpen() {
        bench.desk.seek(SEEN_AT);
        model.addHere();
        Bench.addCase(bench.workspace, "C-2");
        bench.current.open("C-2");
        assertThat(model.cuts()).isEmpty();
        bench.current.open("C-1");
        assertThat(model.cuts()).hasSize(1);
    }

    @Test
    void lookingThroughARecordingWithoutCutsSaysThatThereAreNone() {
        model.look();
        assertThat(model.lookingProperty().get()).isFalse();
        assertThat(model.cuts()).isEmpty();
        assertThat(bench.notice()).contains("No further jump was found");
    }
}
