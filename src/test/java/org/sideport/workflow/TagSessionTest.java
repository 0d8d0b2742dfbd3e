package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

/** A recording of 60 s. Each edit is looked for in a session of its own, which knows only the store. */
class TagSessionTest {

    @TempDir
    Path temp;

    private Workspace workspace;
    private TagSession session;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp);
        Unit.addCase(workspace, "C-01", 60);
        session = new TagRecording(workspace).open("c-01", " A1 ");
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static MediaTime at(double seconds) {
        return MediaTime.ofSeconds(seconds);
    }

    private static PhaseSpan span(String phase, double start, @Nullable Double end, @Nullable Operator operator) {
        return new PhaseSpan(phase, at(start), end == null ? null : at(end), operator);
    }

    private Tagging stored() {
        return new TagRecording(workspace).open("C-01", "A1").tagging();
    }

    private void expect(PhaseSpan... spans) {
        assertThat(stored().spans()).containsExactly(spans);
        assertThat(session.tagging()).isEqualTo(stored());
    }

    @Test
    void eachEditOfThePhasesIsInTheStoreAtOnce() {
        session.startPhase("side_port", at(5), Operator.TRAINEE);
        expect(span("side_port", 5, null, Operator.TRAINEE));
        session.startPhase("rhexis", at(20), null);
        expect(span("side_port", 5, 20.0, Operator.TRAINEE), span("rhexis", 20, null, null));
        session.endPhase(at(30));
        expect(span("side_port", 5, 20.0, Operator.TRAINEE), span("rhexis", 20, 30.0, null));
        session.moveBoundary(at(20), at(18));
        expect(span("side_port", 5, 18.0, Operator.TRAINEE), span("rhexis", 18, 30.0, null));
        session.relabel(span("rhexis", 18, 30.0, null), "ovd_chamber");
        session.setOperator(span("ovd_chamber", 18, 30.0, null), Operator.TRAINER);
        expect(span("side_port", 5, 18.0, Operator.TRAINEE), span("ovd_chamber", 18, 30.0, Operator.TRAINER));
        session.removeSpan(span("side_port", 5, 18.0, Operator.TRAINEE));
        expect(span("ovd_chamber", 18, 30.0, Operator.TRAINER));
        workspace.close();
        workspace = Workspace.open(temp);
        assertThat(stored().spans()).containsExactly(span("ovd_chamber", 18, 30.0, Operator.TRAINER));
    }

    @Test
    void eachEditOfTheEventsIsInTheStoreAtOnce() {
        PointEvent tear = new PointEvent("capsule_tear_anterior", at(12), Severity.MINOR, "at three o'clock");
        PointEvent later = new PointEvent("capsule_tear_anterior", at(13), Severity.MAJOR, "");
        session.addEvent(tear);
        assertThat(stored().events()).containsExactly(tear);
        session.replaceEvent(tear, later);
        assertThat(stored().events()).containsExactly(later);
        session.removeEvent(later);
        assertThat(stored().events()).isEmpty();
        assertThatThrownBy(() -> session.removeEvent(later))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no longer there");
    }

    @Test
    void takingBackAndDoingAgainAreStoredToo() {
        session.startPhase("side_port", at(5), null);
        session.startPhase("rhexis", at(20), null);
        session.undo();
        expect(span("side_port", 5, null, null));
        assertThat(session.canUndo()).isTrue();
        assertThat(session.canRedo()).isTrue();
        session.redo();
        expect(span("side_port", 5, 20.0, null), span("rhexis", 20, null, null));
        assertThat(session.canRedo()).isFalse();
        session.undo();
        session.undo();
        expect();
        session.undo();
        expect();
        assertThat(session.canUndo()).isFalse();
        session.redo();
        session.endPhase(at(9));
        assertThat(session.canRedo())
                .as("a new edit ends what could be done again")
                .isFalse();
        expect(span("side_port", 5, 9.0, null));
    }

    @Test
    void anEditThatChangesNothingIsNoneToTakeBack() {
        session.startPhase("side_port", at(5), null);
        session.moveBoundary(at(5), at(5));
        session.setOperator(span("side_port", 5, null, null), null);
        session.undo();
        expect();
    }

    @Test
    void theIdleTermEndsWhatRuns() {
        session.startPhase("side_port", at(5), null);
        session.startPhase("idle", at(9), null);
        expect(span("side_port", 5, 9.0, null));
        session.relabel(span("side_port", 5, 9.0, null), "idle");
        expect();
    }

    @Test
    void timesBeyondTheRecordingAreRefusedAndItsVeryEndIsAnEndButNoStart() {
        session.startPhase("side_port", at(5), null);
        session.startPhase("rhexis", at(50), null);
        session.endPhase(at(55));
        Tagging before = stored();
        refused(() -> session.startPhase("sculpting", at(60), null));
        refused(() -> session.endPhase(at(60)));
        refused(() -> session.addEvent(new PointEvent("take_over", at(60), null, "")));
        refused(() -> session.moveBoundary(at(55), at(60.000001)));
        assertThat(stored()).isEqualTo(before);
        session.moveBoundary(at(55), at(60));
        expect(span("side_port", 5, 50.0, null), span("rhexis", 50, 60.0, null));
    }

    @Test
    void thePhaseThatRunsOnCannotBeMovedToStartWhereTheRecordingEnds() {
        session.startPhase("side_port", at(5), null);
        refused(() -> session.moveBoundary(at(5), at(60)));
        expect(span("side_port", 5, null, null));
    }

    private static void refused(org.assertj.core.api.ThrowableAssert.ThrowingCallable edit) {
        assertThatThrownBy(edit)
                .isInstanceOf(InputException.class)
                .hasMessageContaining("1:00.000 lies beyond the end of the recording at 1:00.000");
    }

    @Test
    void wordsThatTheProcedureDoesNotKnowAreRefused() {
        session.startPhase("side_port", at(5), null);
        for (String word : List.of("lunch", "Rhexis", "")) {
            assertThatThrownBy(() -> session.startPhase(word, at(6), null))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("unknown phase \"" + word + "\"");
            assertThatThrownBy(() -> session.relabel(span("side_port", 5, null, null), word))
                    .isInstanceOf(InputException.class);
        }
        // a name instead of the id would be stored under a word that no count finds
        for (String word : List.of("coffee", "Iris prolapse", "IRIS_PROLAPSE")) {
            assertThatThrownBy(() -> session.addEvent(new PointEvent(word, at(6), null, "")))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("unknown event \"" + word + "\"");
        }
        assertThat(stored().events()).isEmpty();
        expect(span("side_port", 5, null, null));
    }

    @Test
    void whatIsNoCodeAndWhatIsNoCaseCannotBeOpened() {
        assertThatThrownBy(() -> new TagRecording(workspace).open("C-01", "two words"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("cannot be the code of an annotator");
        assertThatThrownBy(() -> new TagRecording(workspace).open("C-02", "A1"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("there is no case C-02");
    }

    @Test
    void aTimeIsPutRightWithoutAStepOfItsOwn() {
        session.startPhase("incision", at(5), Operator.TRAINEE);
        session.startPhase("rhexis", at(20), Operator.TRAINEE);
        long edit = session.edit();
        assertThat(session.retime(edit, at(20), at(20.4))).isTrue();

        expect(span("incision", 5, 20.4, Operator.TRAINEE), span("rhexis", 20.4, null, Operator.TRAINEE));
        session.undo();
        expect(span("incision", 5, null, Operator.TRAINEE));
        session.redo();
        expect(span("incision", 5, 20.4, Operator.TRAINEE), span("rhexis", 20.4, null, Operator.TRAINEE));
    }

    @Test
    void editsMadeMeanwhileStayWhenATimeIsPutRight() {
        session.startPhase("incision", at(5), Operator.TRAINEE);
        long edit = session.edit();
        session.startPhase("rhexis", at(20), Operator.TRAINEE);
        session.addEvent(new PointEvent("capsule_tear_anterior", at(21), Severity.MINOR, ""));
        session.undo();
        assertThat(session.retime(edit, at(5), at(4.8))).isTrue();

        expect(span("incision", 4.8, 20.0, Operator.TRAINEE), span("rhexis", 20, null, Operator.TRAINEE));
        session.redo();
        assertThat(stored().events()).hasSize(1);
        assertThat(stored().spans().get(0).start()).isEqualTo(at(4.8));
        session.undo();
        session.undo();
        expect(span("incision", 4.8, null, Operator.TRAINEE));
        session.undo();
        expect();
    }

    @Test
    void anEditThatWasTakenBackIsPutRightForDoingItAgain() {
        session.startPhase("incision", at(5), Operator.TRAINEE);
        long edit = session.edit();
        session.undo();
        assertThat(session.retime(edit, at(5), at(4.8))).isTrue();
        expect();

        session.redo();
        expect(span("incision", 4.8, null, Operator.TRAINEE));
    }

    @Test
    void aTimeThatDoesNotFitStaysAsItWas() {
        session.startPhase("incision", at(5), Operator.TRAINEE);
        session.startPhase("rhexis", at(6), Operator.TRAINEE);
        long edit = session.edit();
        Tagging before = session.tagging();

        assertThat(session.retime(edit, at(6), at(4.9))).isFalse(); // nothing would be left of the incision
        assertThat(session.retime(edit, at(6), at(60))).isFalse(); // beyond the recording
        assertThat(session.tagging()).isEqualTo(before).isEqualTo(stored());
    }
}
