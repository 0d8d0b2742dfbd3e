package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.PhaseTiming;
import org.sideport.workflow.ComputeTimings.Level;

/**
 * One operation by hand, in seconds; the recording ends at 300.
 *
 * <pre>
 * step               from   to   phase
 * side_port            10   20   incision
 * (idle)               20   25   inside incision; between two steps
 * main_incision        25   40   incision
 * rhexis               40  100   capsulotomy
 * (idle)              100  110   between
 * side_port           110  120   incision, taken up again
 * rhexis              120  150   capsulotomy, taken up again
 * sculpting           150  200   nucleus_division
 * (idle)              200  220   between
 * cortex_aspiration   220    -   cortex_removal, runs on: to 300
 * </pre>
 */
class ComputeTimingsTest {

    @TempDir
    Path temp;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Unit.addCase(workspace, "C-01", 300);
        Unit.addCase(workspace, "C-02");
        for (String code : new String[] {"C-01", "C-02"}) {
            new TagExchange(workspace)
                    .importCsv(
                            Unit.csv(
                                    temp,
                                    "case,annotator,phase,start,end,operator",
                                    code + ",A1,side_port,10,20,",
                                    code + ",A1,idle,20,25,",
                                    code + ",A1,main_incision,25,40,",
                                    code + ",A1,rhexis,40,100,",
                                    code + ",A1,side_port,110,120,",
                                    code + ",A1,rhexis,120,150,",
                                    code + ",A1,sculpting,150,200,trainer",
                                    code + ",A1,cortex_aspiration,220,,"),
                            null,
                            false);
        }
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static PhaseTiming row(String phase, long active, long span, int episodes, int returns, long idleInside) {
        return new PhaseTiming(phase, active * 1_000_000, span * 1_000_000, episodes, returns, idleInside * 1_000_000);
    }

    @Test
    void stepsAreAddedUpUnderTheirPhase() {
        CaseTiming timing = new ComputeTimings(workspace).ofCase("c-01", "A1", Level.PHASE);
        assertThat(timing.phases())
                .containsExactly(
                        // 10 + 15 + 10; from 10 to 120; the idle 20 to 25
                        row("incision", 35, 110, 3, 1, 5),
                        // 60 + 30; from 40 to 150; what lies within is another phase's, or between phases
                        row("capsulotomy", 90, 110, 2, 1, 0),
                        row("nucleus_division", 50, 50, 1, 0, 0),
                        // 220 to the recording's end
                        row("cortex_removal", 80, 80, 1, 0, 0));
        // 10 to 300; 35 + 90 + 50 + 80; 290 - 255; 10 + 20
        assertThat(timing.operatingUs()).isEqualTo(290_000_000);
        assertThat(timing.activeUs()).isEqualTo(255_000_000);
        assertThat(timing.idleUs()).isEqualTo(35_000_000);
        assertThat(timing.idleBetweenUs()).isEqualTo(30_000_000);
        assertThat(timing.order())
                .containsExactly(
                        "incision", "capsulotomy", "incision", "capsulotomy", "nucleus_division", "cortex_removal");
    }

    @Test
    void stepsAreKeptApartWhenAskedFor() {
        CaseTiming timing = new ComputeTimings(workspace).ofCase("C-01", "A1", Level.STEP);
        assertThat(timing.phases())
                .containsExactly(
                        row("side_port", 20, 110, 2, 1, 0),
                        row("main_incision", 15, 15, 1, 0, 0),
                        row("rhexis", 90, 110, 2, 1, 0),
                        row("sculpting", 50, 50, 1, 0, 0),
                        row("cortex_aspiration", 80, 80, 1, 0, 0));
        // as steps, 20 to 25 lies between two as well: 5 + 10 + 20
        assertThat(timing.idleBetweenUs()).isEqualTo(35_000_000);
        assertThat(timing.idleUs()).isEqualTo(35_000_000);
        assertThat(timing.order())
                .containsExactly(
                        "side_port",
                        "main_incision",
                        "rhexis",
                        "side_port",
                        "rhexis",
                        "sculpting",
                        "cortex_aspiration");
    }

    @Test
    void aPhaseThatRunsOnHasNoLengthWhereNoRecordingSaysWhereItEnds() {
        CaseTiming timing = new ComputeTimings(workspace).ofCase("C-02", "A1", Level.PHASE);
        assertThat(timing.phases())
                .contains(row("incision", 35, 110, 3, 1, 5), new PhaseTiming("cortex_removal", null, null, 1, 0, 0));
        assertThat(timing.operatingUs()).isNull();
        assertThat(timing.activeUs()).isNull();
        assertThat(timing.idleUs()).isNull();
    }

    @Test
    void whoHasNotTaggedHasNoTimes() {
        ComputeTimings job = new ComputeTimings(workspace);
        assertThat(job.all(Level.PHASE)).hasSize(2);
        assertThatThrownBy(() -> job.ofCase("C-01", "A2", Level.PHASE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("A2 has not tagged case C-01");
    }
}
