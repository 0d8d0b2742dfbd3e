package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.util.Properties;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.Hands;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.MeasureCase;
import org.sideport.workflow.TagRecording;

/** From an empty folder to two compared cases in one go, then killed without any warning, and started again. */
@Timeout(900)
class WholeJobTest {

    @Test
    void fromAnEmptyFolderToTwoComparedCasesAndNothingIsLostWhenTheProgramIsKilled() throws Exception {
        try (ChildApp app = new ChildApp(WholeJob.class)) {
            app.start();
            app.until(780, place -> Files.exists(app.folder.resolve("ready")));
            app.until(
                    30,
                    place -> place.getProperty("draft.text", "").equals(WholeJob.HALF)
                            && place.getProperty("time_us", "").equals("31240000"));
            app.kill();

            app.start(KilledApp.Start.class, "tell");
            Properties there = app.told("told.properties");
            assertThat(there.getProperty("case")).isEqualTo("D-001");
            assertThat(there.getProperty("time_us")).isEqualTo("31240000");
            // truth-phases.csv: the rhexis of D-001 begins at 18.4 s
            assertThat(there.getProperty("selected")).isEqualTo("rhexis at 18400000");
            assertThat(there.getProperty("field")).isEqualTo("comment-text");
            assertThat(there.getProperty("text")).isEqualTo(WholeJob.HALF);
            app.end();

            try (Workspace workspace = Workspace.open(app.folder)) {
                Tagging truth = Hands.truth("D-001");
                var session = new TagRecording(workspace).open("D-001", "A1");
                assertThat(session.tagging().spans())
                        .extracting(PhaseSpan::phase, PhaseSpan::start, PhaseSpan::end)
                        .containsExactlyElementsOf(truth.spans().stream()
                                .map(s -> org.assertj.core.groups.Tuple.tuple(s.phase(), s.start(), s.end()))
                                .toList());
                assertThat(session.confirmed()).containsExactlyInAnyOrderElementsOf(Boundary.of(truth));
                assertThat(new CommentCase(workspace).of("D-001"))
                        .extracting(thread -> thread.comment().text())
                        .containsExactly("a round rhexis");
                assertThat(new MeasureCase(workspace).of("D-001")).hasSize(2);
                assertThat(new TagRecording(workspace)
                                .open("D-002", "A1")
                                .tagging()
                                .spans())
                        .hasSize(2);
            }
        }
    }
}
