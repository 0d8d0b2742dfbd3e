package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Properties;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.Bench;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.player.DemoRecordings;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.TagRecording;

/** The app as a process of its own, killed in the middle of work without any warning, and started again. */
@Timeout(240)
class KilledAppTest {

    private ChildApp app;

    @BeforeEach
    void aCaseWithTwoPhases() throws Exception {
        app = new ChildApp(KilledApp.Start.class);
        try (Workspace workspace = FreshWorkspace.in(app.folder)) {
            Bench.addCase(workspace, "C-1", DemoRecordings.D001);
            Bench.addCase(workspace, "C-2", DemoRecordings.D001);
            var session = new TagRecording(workspace).open("C-2", "A1");
            session.startPhase("incision", MediaTime.ofSeconds(3), Operator.TRAINEE);
            session.startPhase("capsulotomy", MediaTime.ofSeconds(20), Operator.TRAINEE);
        }
    }

    @AfterEach
    void end() throws Exception {
        app.close();
    }

    @Test
    void itIsThereAgainAtTheSameCaseSecondSelectionAndHalfWrittenText() throws Exception {
        // D-001 has 25 frames a second: 31.24 s is the start of a frame
        app.start("work", "31240000");
        app.until(
                90,
                place -> place.getProperty("time_us", "").equals("31240000")
                        && !place.getProperty("selected", "").isEmpty()
                        && place.getProperty("draft.text", "").equals("hold the second instr"));
        app.kill();
        assertThat(app.place().getProperty("open")).isEqualTo("true");

        app.start("tell");
        Properties there = app.told("told.properties");

        assertThat(there.getProperty("case")).isEqualTo("C-2");
        assertThat(there.getProperty("time_us")).isEqualTo("31240000");
        assertThat(there.getProperty("selected")).isEqualTo("capsulotomy at 20000000");
        assertThat(there.getProperty("field")).isEqualTo("comment-text");
        assertThat(there.getProperty("text")).isEqualTo("hold the second instr");
        assertThat(there.getProperty("notice")).startsWith("Reopened where it was");
        app.end();
        try (Workspace workspace = Workspace.open(app.folder)) {
            assertThat(new TagRecording(workspace).open("C-2", "A1").tagging().spans())
                    .hasSize(2);
        }
    }
}
