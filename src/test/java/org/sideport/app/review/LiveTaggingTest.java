package org.sideport.app.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.Settings;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.TaggingStyle;
import org.sideport.player.DemoRecordings;

/** On D-001: 25 frames a second, so frame n starts at n times 40 ms. */
class LiveTaggingTest {

    @TempDir
    Path folder;

    private Bench bench;
    private ReviewViewModel model;

    private static MediaTime frame(long number) {
        return MediaTime.ofMicros(number * 40_000);
    }

    private static PhaseSpan span(String phase, long start, long end) {
        return new PhaseSpan(phase, frame(start), end < 0 ? null : frame(end), Operator.TRAINEE);
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

    private void keyAt(long frame, String key) {
        bench.player.runTo(MediaTime.ofMicros(frame * 40_000 + 10_000));
        assertThat(model.tagByKey(key)).isTrue();
    }

    @Test
    void atFirstNoReactionIsAllowedFor() {
        bench.desk.play();
        keyAt(100, "1");
        assertThat(bench.stored("C-1", "A1").spans()).containsExactly(span("incision", 100, -1));
    }

    @Test
    void aKeyWhilePlayingIsSetEarlierByReactionTimesRate() {
        model.habits().reactionProperty().set(400);
        bench.desk.setRate(2);
        bench.desk.play();
        // 400 ms at 2 x are 0.8 s, 20 frames
        keyAt(100, "1");
        keyAt(200, "2");
        keyAt(300, "0");
        assertThat(bench.stored("C-1", "A1").spans())
                .containsExactly(span("incision", 80, 180), span("capsulotomy", 180, 280));
    }

    @Test
    void standingNothingIsSetEarlier() {
        model.habits().reactionProperty().set(400);
        bench.desk.seek(frame(100));
        model.tagByKey("1");
        assertThat(bench.stored("C-1", "A1").spans()).containsExactly(span("incision", 100, -1));
    }

    @Test
    void neverBeforeTheRecordingsStartNorTheStartOfWhatRunsNorIntoWhatHasEnded() {
        model.habits().reactionProperty().set(1500);
        bench.desk.play();
        keyAt(20, "1"); // 37.5 frames before the start of the recording
        assertThat(bench.stored("C-1", "A1").spans()).containsExactly(span("incision", 0, -1));

        keyAt(30, "2"); // what runs has at least its first frame
        keyAt(100, "0"); // 62.5 frames in: within frame 62
        assertThat(bench.stored("C-1", "A1").spans())
                .containsExactly(span("incision", 0, 1), span("capsulotomy", 1, 62));

        keyAt(70, "3"); // would lie in the capsulotomy, which ended at 62
        assertThat(bench.stored("C-1", "A1").spans().get(1)).isEqualTo(span("capsulotomy", 1, 62));
        assertThat(bench.stored("C-1", "A1").spans().get(2).start()).isEqualTo(frame(62));
    }

    @Test
    void oneKeyIsOneStepForUndoWithReactionToo() {
        model.habits().reactionProperty().set(400);
        bench.desk.play();
        keyAt(100, "1");
        keyAt(200, "2");
        model.undo();
        assertThat(bench.stored("C-1", "A1").spans()).containsExactly(span("incision", 90, -1));
    }

    @Test
    void theReactionIsHeldWithinItsLimitsAndRemembered() {
        model.habits().reactionProperty().set(9000);
        assertThat(model.habits().reactionProperty().get()).isEqualTo(1500);
        model.habits().reactionProperty().set(-1);
        assertThat(model.habits().reactionProperty().get()).isZero();
        model.habits().reactionProperty().set(250);
        bench.settings.save();
        assertThat(new TagHabits(new Settings(folder.resolve("window.properties")))
                        .reactionProperty()
                        .get())
                .isEqualTo(250);
    }

    @Test
    void ownKeysTag() {
        var rhexis = model.procedureProperty().get().find("rhexis").orElseThrow();
        model.keys().set(bench.current.opened().procedure(), rhexis, "ö");
        assertThat(model.tagByKey("t")).isFalse();
        assertThat(model.tagByKey("ö")).isTrue();
        assertThat(bench.stored("C-1", "A1").spans().get(0).phase()).isEqualTo("rhexis");
    }

    @Test
    void whatRunsWasAnotherPhaseFromThePictureOn() {
        bench.desk.seek(frame(100));
        model.tagByKey("1");
        bench.desk.seek(frame(150));
        model.otherPhase().begin();
        assertThat(model.otherPhase().sinceProperty().get()).isEqualTo(frame(150));
        assertThat(model.otherPhase().wasByKey(model.procedureProperty().get(), "2", false))
                .isTrue();

        assertThat(model.otherPhase().sinceProperty().get()).isNull();
        assertThat(bench.stored("C-1", "A1").spans())
                .containsExactly(span("incision", 100, 150), span("capsulotomy", 150, -1));
        model.undo();
        assertThat(bench.stored("C-1", "A1").spans()).containsExactly(span("incision", 100, -1));
    }

    @Test
    void fromItsStartWhereThePictureStandsThereOrTheWholeIsMeant() {
        bench.desk.seek(frame(100));
        model.tagByKey("1");
        model.otherPhase().begin();
        model.otherPhase().wasByKey(model.procedureProperty().get(), "2", false);
        assertThat(bench.stored("C-1", "A1").spans()).containsExactly(span("capsulotomy", 100, -1));

        bench.desk.seek(frame(150));
        model.otherPhase().begin();
        model.otherPhase().wasByKey(model.procedureProperty().get(), "3", true);
        assertThat(bench.stored("C-1", "A1").spans())
                .hasSize(1)
                .first()
                .extracting(PhaseSpan::start)
                .isEqualTo(frame(100));
        assertThat(bench.stored("C-1", "A1").spans().get(0).phase()).isNotEqualTo("capsulotomy");
    }

    @Test
    void whereNothingRunsItSaysSoAndEscapeChangesNothing() {
        model.otherPhase().begin();
        assertThat(model.otherPhase().sinceProperty().get()).isNull();
        assertThat(bench.notice()).startsWith("No phase runs here");

        bench.desk.seek(frame(100));
        model.tagByKey("1");
        model.otherPhase().begin();
        model.otherPhase().cancel();
        assertThat(bench.stored("C-1", "A1").spans()).containsExactly(span("incision", 100, -1));
    }

    @Test
    void aNewTaggingIsBegunInTheChosenStyle() {
        model.setStyle(TaggingStyle.STARTS_ONLY);
        assertThat(bench.stored("C-1", "A1").style()).isEqualTo(TaggingStyle.START_AND_END);
        bench.desk.seek(frame(100));
        model.tagByKey("1");
        assertThat(bench.stored("C-1", "A1").style()).isEqualTo(TaggingStyle.STARTS_ONLY);

        model.setAnnotator("A2");
        model.tagByKey("1");
        assertThat(bench.stored("C-1", "A2").style()).isEqualTo(TaggingStyle.STARTS_ONLY);
    }

    @Test
    void idleTimeIsNotLostByAChangeOfStyle() {
        bench.desk.seek(frame(100));
        model.tagByKey("1");
        bench.desk.seek(frame(150));
        model.tagByKey("0");
        bench.desk.seek(frame(200));
        model.tagByKey("2");

        model.setStyle(TaggingStyle.STARTS_ONLY);
        assertThat(bench.notice()).contains("1 stretch of idle time");
        assertThat(model.taggingProperty().get().style()).isEqualTo(TaggingStyle.START_AND_END);
        assertThat(bench.stored("C-1", "A1").spans().get(0).end()).isEqualTo(frame(150));
    }
}
