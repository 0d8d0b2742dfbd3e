package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.TaggingStyle;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;

/** A recording of 60 s. What is confirmed is looked for in a session of its own, which knows only the store. */
class ConfirmedBoundariesTest {

    @TempDir
    Path temp;

    private Workspace workspace;
    private TagSession session;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp);
        Unit.addCase(workspace, "C-01", 60);
        session = new TagRecording(workspace).open("C-01", "A1");
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static MediaTime at(double seconds) {
        return MediaTime.ofSeconds(seconds);
    }

    private static Boundary phase(double seconds) {
        return new Boundary(Boundary.Kind.PHASE, at(seconds));
    }

    private static Boundary event(double seconds) {
        return new Boundary(Boundary.Kind.EVENT, at(seconds));
    }

    private Set<Boundary> confirmed() {
        Set<Boundary> stored = new TagRecording(workspace).open("C-01", "A1").confirmed();
        assertThat(session.confirmed()).isEqualTo(stored);
        return stored;
    }

    private void tagTwoPhases() {
        session.startPhase("side_port", at(5), null);
        session.startPhase("rhexis", at(20), null);
        session.endPhase(at(30));
    }

    @Test
    void aBoundaryIsMovedAndConfirmedInOneStep() {
        tagTwoPhases();
        session.confirm(phase(20), at(18));

        assertThat(session.tagging().spans())
                .containsExactly(
                        new PhaseSpan("side_port", at(5), at(18), null), new PhaseSpan("rhexis", at(18), at(30), null));
        assertThat(confirmed()).containsExactly(phase(18));

        session.undo();
        assertThat(confirmed()).isEmpty();
        assertThat(session.tagging().spans().get(1).start()).isEqualTo(at(20));
        session.redo();
        assertThat(confirmed()).containsExactly(phase(18));
    }

    @Test
    void whatLiesRightIsConfirmedWhereItIs() {
        tagTwoPhases();
        session.confirm(phase(5), at(5));
        session.confirm(phase(30), at(30));
        assertThat(confirmed()).containsExactlyInAnyOrder(phase(5), phase(30));
        session.undo();
        assertThat(confirmed()).containsExactly(phase(5));
    }

    @Test
    void anEditThatMovesABoundaryMakesItRoughAgainAndUndoRestoresIt() {
        tagTwoPhases();
        session.confirm(phase(20), at(20));
        session.confirm(phase(5), at(5));

        session.moveBoundary(at(20), at(21));
        assertThat(confirmed()).containsExactly(phase(5));
        session.undo();
        assertThat(confirmed()).containsExactlyInAnyOrder(phase(5), phase(20));

        // another name is no other time
        session.relabel(session.tagging().spans().get(1), "ovd_chamber");
        assertThat(confirmed()).containsExactlyInAnyOrder(phase(5), phase(20));
        session.removeSpan(session.tagging().spans().get(0));
        assertThat(confirmed()).containsExactly(phase(20));
    }

    @Test
    void theyOutliveTheProgram() {
        tagTwoPhases();
        session.confirm(phase(20), at(18));
        workspace.close();
        workspace = Workspace.open(temp);
        session = new TagRecording(workspace).open("C-01", "A1");

        assertThat(confirmed()).containsExactly(phase(18));
    }

    @Test
    void anEventIsMovedAndConfirmedToo() {
        tagTwoPhases();
        session.addEvent(new PointEvent("iris_prolapse", at(20), null, ""));
        session.confirm(event(20), at(19));

        assertThat(session.tagging().events().get(0).at()).isEqualTo(at(19));
        assertThat(session.tagging().spans().get(1).start()).isEqualTo(at(20));
        assertThat(confirmed()).containsExactly(event(19));
    }

    @Test
    void whatDoesNotFitIsRefusedAndChangesNothing() {
        tagTwoPhases();
        assertThatThrownBy(() -> session.confirm(phase(20), at(30))).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> session.confirm(phase(30), at(61))).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> session.confirm(phase(7), at(7))).isInstanceOf(InputException.class);
        assertThat(confirmed()).isEmpty();
        assertThat(session.tagging().spans().get(1).end()).isEqualTo(at(30));
    }

    @Test
    void tagsTakenInFromAFileAreRoughButEventsKeepWhatIsConfirmed() throws Exception {
        tagTwoPhases();
        session.addEvent(new PointEvent("iris_prolapse", at(20), null, ""));
        session.confirm(phase(20), at(20));
        session.confirm(event(20), at(20));
        Path file = Files.writeString(
                temp.resolve("phases.csv"), "case,annotator,phase,start,end,operator\nC-01,A1,rhexis,20,30,\n");
        new TagExchange(workspace).importCsv(file, null, true);

        assertThat(new TagRecording(workspace).open("C-01", "A1").confirmed()).containsExactly(event(20));
    }

    @Test
    void theRunningPhaseWasAnotherFromAMomentOn() {
        tagTwoPhases();
        session.relabelFrom(at(25), "ovd_chamber");
        assertThat(session.tagging().spans())
                .containsExactly(
                        new PhaseSpan("side_port", at(5), at(20), null),
                        new PhaseSpan("rhexis", at(20), at(25), null),
                        new PhaseSpan("ovd_chamber", at(25), at(30), null));
        session.undo();
        session.relabelFrom(at(20), "ovd_chamber");
        assertThat(session.tagging().spans().get(1)).isEqualTo(new PhaseSpan("ovd_chamber", at(20), at(30), null));
        session.undo();
        assertThat(session.tagging().spans()).hasSize(2);
        assertThatThrownBy(() -> session.relabelFrom(at(40), "rhexis"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no phase runs");
    }

    @Test
    void whereOnlyStartsAreTaggedEachPhaseRunsOnToTheNext() {
        session.setStyle(TaggingStyle.STARTS_ONLY);
        session.startPhase("side_port", at(5), null);
        session.startPhase("rhexis", at(20), null);
        session.endPhase(at(30));
        session.startPhase("division", at(40), null);

        assertThat(session.tagging().style()).isEqualTo(TaggingStyle.STARTS_ONLY);
        assertThat(session.tagging().spans())
                .containsExactly(
                        new PhaseSpan("side_port", at(5), at(20), null),
                        new PhaseSpan("rhexis", at(20), at(40), null),
                        new PhaseSpan("division", at(40), null, null));
        assertThatThrownBy(() -> session.endPhase(at(25)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("only starts");
        session.removeSpan(session.tagging().spans().get(1));
        assertThat(session.tagging().spans().get(0).end()).isEqualTo(at(40));

        session.setStyle(TaggingStyle.START_AND_END);
        session.endPhase(at(10));
        assertThat(session.tagging().spans().get(0).end()).isEqualTo(at(10));
    }

    @Test
    void theStyleIsNotChangedWhereIdleTimeWouldBeLost() {
        tagTwoPhases();
        session.setStyle(TaggingStyle.STARTS_ONLY); // no gap yet
        session.undo();
        session.startPhase("division", at(40), null);

        assertThatThrownBy(() -> session.setStyle(TaggingStyle.STARTS_ONLY))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("1 stretch of idle time")
                .hasMessageContaining("0:30.000");
        assertThat(session.tagging().style()).isEqualTo(TaggingStyle.START_AND_END);
    }
}
