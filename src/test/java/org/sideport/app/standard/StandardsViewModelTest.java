package org.sideport.app.standard;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Notices;
import org.sideport.app.RunNow;
import org.sideport.app.Texts;
import org.sideport.app.people.Me;
import org.sideport.model.Caller;
import org.sideport.model.Role;
import org.sideport.stats.Outcome;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.CutBasis;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.MadeUpMarks;
import org.sideport.workflow.StandardRounds;
import org.sideport.workflow.Standards;
import org.sideport.workflow.Vocabularies;

class StandardsViewModelTest {

    @TempDir
    Path temp;

    private final Texts texts = new Texts();
    private final Notices notices = new Notices(texts);
    private final Clock clock = Clock.systemUTC();
    private Workspace workspace;
    private StandardsViewModel model;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        new MadeUpMarks(workspace).borderlineExample();
        model = new StandardsViewModel(
                new StandardRounds(workspace, clock),
                new Standards(workspace, clock),
                new Vocabularies(workspace),
                new RunNow(),
                notices,
                texts,
                clock,
                new Me(new Caller.Person("A4", Set.of(Role.ASSESSOR))));
        model.load();
        choose("five");
    }

    @Test
    void whoSignedInNeedNotTypeTheOwnCodeToSitDownAsAJudge() {
        assertThat(model.ownCode()).isEqualTo("A4");
        assertThat(new Me(new Caller.Anyone()).code()).isEmpty();
    }

    private void choose(String rubric) {
        model.rubricProperty()
                .set(model.rubrics().stream()
                        .filter(r -> r.id().equals(rubric))
                        .findFirst()
                        .orElseThrow());
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    /** The worked example of StandardsTest: 17.25 of 25. */
    @Test
    void judgesSitDownInTurnAndNobodySeesAnothersSheet() {
        model.open("A1, A2;A3 A4", "");
        assertThat(model.newest().round().judges()).containsExactly("A1", "A2", "A3", "A4");
        MadeUpMarks.angoffExample().forEach((judge, points) -> {
            model.sit(judge);
            assertThat(model.sheetProperty().get().points()).isEmpty();
            model.save(points);
            assertThat(model.sheetProperty().get()).isNull();
            assertThat(model.newest().items()).isEmpty();
        });
        assertThat(notices.currentProperty().get().text()).contains("A4: 5 of 5 items kept");
        model.close("", "");
        assertThat(model.newest().items()).hasSize(5);
        model.propose(() -> new CutBasis.Judged(model.newest().round().id()));
        model.agree("A1,A2", "so be it");
        assertThat(model.proposalProperty().get()).isNull();
        assertThat(Figure.standard(texts, model.agreed().get(0)))
                .startsWith("No. 1, in force: 69.0 % by judges, item by item (Angoff) (standard error 2.5,");
    }

    @Test
    void whatCannotBeDoneIsSaidAndChangesNothing() {
        model.open("A1", "");
        assertThat(notices.currentProperty().get().text()).contains("one judge is no panel");
        assertThat(model.newest()).isNull();
        model.open("A1 A2", "");
        model.sit("A9");
        assertThat(notices.currentProperty().get().text()).contains("A9 was not asked");
        assertThat(model.sheetProperty().get()).isNull();
        model.close("", "");
        assertThat(model.newest().round().isOpen()).isTrue();
    }

    @Test
    void aRefusalIsShownAndAnotherRubricClearsIt() {
        choose("scale");
        model.propose(() -> new CutBasis.Borderline(new CutBasis.Grades("grade", null), 9));
        assertThat(model.proposalProperty().get()).isInstanceOf(Outcome.Refused.class);
        model.agree("A1", "");
        assertThat(model.agreed()).isEmpty();
        choose("five");
        assertThat(model.proposalProperty().get()).isNull();
    }

    @Test
    void thePanelsWordsAreKeptWithWhatIsOnTheScreen() {
        DecisionsViewModel decisions = new DecisionsViewModel(
                new Decisions(workspace, clock), new Vocabularies(workspace), new RunNow(), notices, texts, clock);
        decisions.load();
        decisions
                .rubricProperty()
                .set(decisions.rubrics().stream()
                        .filter(r -> r.id().equals("scale"))
                        .findFirst()
                        .orElseThrow());
        assertThat(decisions.shownProperty().get()).isNull();
        decisions.traineeProperty().set("T-B0");
        assertThat(decisions.shownProperty().get().view().mean()).isEqualTo(0.38);
        decisions.record("Goes on", "A1 A2");
        assertThat(decisions.shownProperty().get().before()).singleElement().satisfies(kept -> {
            assertThat(kept.decidedBy()).containsExactly("A1", "A2");
            assertThat(kept.shownDigest())
                    .isEqualTo(decisions.shownProperty().get().digest());
        });
        decisions.record(" ", "A1");
        assertThat(notices.currentProperty().get().text()).contains("what was decided is not said");
    }

    @Test
    void typedNumbersAndCodesAreRead() {
        assertThat(Codes.in(" A1,A2 ;A3  A4, ")).containsExactly("A1", "A2", "A3", "A4");
        assertThat(Figure.parse(" 2,5 ")).isEqualTo(2.5);
        assertThat(Figure.percent(null)).isEqualTo("–");
        assertThat(Figure.number(-1.25, 1)).isEqualTo("−1.3");
    }
}
