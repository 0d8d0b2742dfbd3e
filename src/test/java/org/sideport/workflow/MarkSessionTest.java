package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;

class MarkSessionTest {

    @TempDir
    Path temp;

    private Workspace workspace;
    private MarkSession session;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp);
        Unit.addCase(workspace, "C-01");
        session = again();
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    /** Another session, which knows only what is stored. */
    private MarkSession again() {
        return new MarkCase(workspace).open("C-01", "A1", false, Unit.RUBRIC);
    }

    @Test
    void evidenceAndAgreedActionsAreStoredAtOnceAndStayWithTheMark() {
        assertThatThrownBy(() -> session.toggleEvidence("view", MediaTime.ofSeconds(3)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("mark it first");
        session.mark("view", 3);
        session.toggleEvidence("view", MediaTime.ofSeconds(30));
        session.toggleEvidence("view", MediaTime.ofSeconds(3));
        session.mark("view", 2);
        session.comment("view", "late");
        assertThat(again().rating().score("view").orElseThrow().evidence())
                .containsExactly(MediaTime.ofSeconds(3), MediaTime.ofSeconds(30));
        session.toggleEvidence("view", MediaTime.ofSeconds(3));
        session.excuse("view", NotApplicable.NOT_VISIBLE);
        assertThat(again().rating().score("view").orElseThrow().evidence()).containsExactly(MediaTime.ofSeconds(30));
        session.agree(List.of(" wider wound ", "", "steady the eye"));
        assertThat(again().rating().actions()).containsExactly("wider wound", "steady the eye");
        assertThatThrownBy(() -> session.agree(List.of("a", "b", "c", "d"))).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> session.markValue("view", 3))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("choose one of its levels");
    }

    @Test
    void nothingIsStoredBeforeTheFirstMarkAndEachMarkIsStoredAtOnce() {
        assertThat(workspace.<List<StoredRating>>read(s -> s.ratings().all())).isEmpty();
        session.mark("view", 3);
        assertThat(again().rating().scores()).containsExactly(new ItemScore.Marked("view", 3, ""));
        session.comment("view", "focus follows late");
        session.mark("view", 2);
        assertThat(again().rating().scores()).containsExactly(new ItemScore.Marked("view", 2, "focus follows late"));
        session.excuse("division", NotApplicable.DONE_BY_TRAINER);
        session.comment("division", "from the first crack");
        session.overallComment("calm");
        assertThat(again().rating()).isEqualTo(session.rating());
        assertThat(again().rating().score("division"))
                .contains(new ItemScore.Excused("division", NotApplicable.DONE_BY_TRAINER, "from the first crack"));
        assertThat(again().rating().comment()).isEqualTo("calm");
        session.clear("view");
        assertThat(again().rating().score("view")).isEmpty();
        assertThat(workspace.<List<StoredRating>>read(s -> s.ratings().all())).hasSize(1);
    }

    @Test
    void whatTheRubricDoesNotAllowIsRefused() {
        refused(() -> session.mark("view", 5), "cannot have 5 points");
        refused(() -> session.mark("view", 0), "possible are [1, 2, 3, 4]");
        refused(() -> session.mark("juggling", 1), "unknown item \"juggling\"");
        refused(() -> session.excuse("view", NotApplicable.DONE_BY_TRAINER), "cannot be left out as done by trainer");
        refused(() -> session.comment("view", "late"), "no mark yet");
        refused(session::sign, "nothing is marked yet");
        assertThat(workspace.<List<StoredRating>>read(s -> s.ratings().all())).isEmpty();
    }

    @Test
    void onlyACompleteRatingIsSignedAndThenNothingChanges() {
        for (Rubric.Item item : Unit.RUBRIC.items()) {
            if (!item.id().equals("view") && !item.id().equals("difficulty")) {
                session.mark(item.id(), 4);
            }
        }
        refused(session::sign, "not complete: view, difficulty");
        assertThat(session.state()).isEqualTo(RatingState.DRAFT);
        session.mark("view", 4);
        session.excuse("difficulty", NotApplicable.NOT_PERFORMED);
        session.sign();
        assertThat(session.state()).isEqualTo(RatingState.SIGNED);
        MarkSession opened = again();
        assertThat(opened.state()).isEqualTo(RatingState.SIGNED);
        // 19 items of 4 points; the excused one leaves sum and maximum
        assertThat(opened.score().points()).isEqualTo(76);
        assertThat(opened.score().share()).isEqualTo(1.0);
        for (MarkSession one : new MarkSession[] {session, opened}) {
            refused(() -> one.mark("view", 1), "this rating is signed");
            refused(() -> one.excuse("view", NotApplicable.NOT_VISIBLE), "this rating is signed");
            refused(() -> one.clear("view"), "this rating is signed");
            refused(() -> one.comment("view", ""), "this rating is signed");
            refused(() -> one.overallComment("x"), "this rating is signed");
            refused(one::sign, "this rating is signed");
        }
        assertThat(again().rating()).isEqualTo(session.rating());
    }

    @Test
    void aSessionThatWasOvertakenByASignatureChangesNothing() {
        session.mark("view", 3);
        new MarkCase(workspace).rate("C-01", Unit.rating("A1", false));
        new MarkCase(workspace).sign("C-01", Unit.RUBRIC.id(), "A1", false);
        refused(() -> session.mark("view", 1), "is signed");
        assertThat(again().rating()).isEqualTo(Unit.rating("A1", false));
    }

    @Test
    void twoSessionsBegunBeforeTheFirstMarkAreToldApart() {
        MarkSession other = again();
        session.mark("view", 3);
        refused(() -> other.mark("view", 1), "A1 has begun a rating of C-01", "open it again");
        assertThat(again().rating().score("view")).contains(new ItemScore.Marked("view", 3, ""));
    }

    private static void refused(org.assertj.core.api.ThrowableAssert.ThrowingCallable work, String... parts) {
        var refusal = assertThatThrownBy(work).isInstanceOf(InputException.class);
        for (String part : parts) {
            refusal.hasMessageContaining(part);
        }
    }
}
