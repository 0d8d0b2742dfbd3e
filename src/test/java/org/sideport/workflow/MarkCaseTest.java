package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;

/** The shipped rubric has 20 items of 1 to 4 points. */
class MarkCaseTest {

    private static final String ID = Unit.RUBRIC.id();

    @TempDir
    Path temp;

    private Workspace workspace;
    private MarkCase marking;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp);
        Unit.addCase(workspace, "C-01");
        marking = new MarkCase(workspace);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private List<StoredRating> stored() {
        return workspace.read(s -> s.ratings().ofCase("C-01"));
    }

    private static void refused(org.assertj.core.api.ThrowableAssert.ThrowingCallable work, String... parts) {
        var refusal = assertThatThrownBy(work).isInstanceOf(InputException.class);
        for (String part : parts) {
            refusal.hasMessageContaining(part);
        }
    }

    @Test
    void aRatingGoesFromDraftThroughSigningToAnAmendmentWithAReason() {
        MarkCase.Rated draft = marking.rate("c-01", Unit.rating("A1", false, "suture", "closure", "rhexis_start"));
        assertThat(draft.state()).isEqualTo(RatingState.DRAFT);
        // "suture" is a step and no item: 20 - 2 items of 3 points
        assertThat(draft.score().points()).isEqualTo(18 * 3);
        refused(
                () -> marking.sign("C-01", ID, "A1", false),
                "not complete: rhexis_start, closure",
                "mark each of these items");
        assertThat(stored()).extracting(StoredRating::state).containsExactly(RatingState.DRAFT);

        assertThat(marking.rate("C-01", Unit.rating("A1", false)).id())
                .as("in the draft's place")
                .isEqualTo(draft.id());
        MarkCase.Rated signed = marking.sign("c-01", ID, "A1", false);
        assertThat(signed.state()).isEqualTo(RatingState.SIGNED);
        // 20 x 3 of 20 x 4
        assertThat(signed.score().share()).isCloseTo(60.0 / 80, within(1e-12));

        Rating worse = Unit.withPoints(Unit.rating("A1", false), "closure", 1);
        refused(() -> marking.rate("C-01", worse), "A1 has signed a rating of C-01", "sideport rate amend");
        refused(() -> marking.sign("C-01", ID, "A1", false), "no draft by A1");
        refused(() -> marking.amend("C-01", worse, "  "), "needs a reason");
        refused(() -> marking.amend("C-01", stored().get(0).rating(), "why"), "the same as the signed ones");
        refused(() -> marking.amend("C-01", Unit.rating("A1", false, "view"), "why"), "not complete: view");
        assertThat(stored()).hasSize(1);

        MarkCase.Rated amended = marking.amend("C-01", worse, " leak seen afterwards ");
        // 19 x 3 + 1 of 80
        assertThat(amended.score().share()).isCloseTo(58.0 / 80, within(1e-12));
        assertThat(stored())
                .extracting(StoredRating::state)
                .containsExactly(RatingState.SUPERSEDED, RatingState.SIGNED);
        assertThat(stored().get(1).reason()).isEqualTo("leak seen afterwards");
        assertThat(stored().get(1).amends()).isEqualTo(signed.id());
        assertThat(stored().get(0).rating()).isEqualTo(Unit.rating("A1", false));
    }

    @Test
    void anAmendmentIsMarkedItemByItemAndReplacesWhatWasSignedOnlyWhenItIsSigned() {
        AmendMark amending = new AmendMark(workspace);
        refused(() -> amending.begin("C-01", ID, "A1", false, "leak"), "A1 has signed no rating of C-01");
        marking.rate("C-01", Unit.rating("A1", false));
        refused(() -> amending.begin("C-01", ID, "A1", false, "leak"), "A1 has signed no rating of C-01");
        refused(() -> amending.giveUp("C-01", ID, "A1", false), "A1 is amending no rating of C-01");
        long first = marking.sign("C-01", ID, "A1", false).id();
        refused(() -> amending.begin("C-01", ID, "A1", false, " "), "needs a reason");

        amending.begin("C-01", ID, "A1", false, " leak seen afterwards ");
        refused(() -> amending.begin("C-01", ID, "A1", false, "again"), "is amending the rating of C-01 already");
        refused(
                () -> marking.amend("C-01", Unit.withPoints(Unit.rating("A1", false), "view", 1), "again"),
                "is amending the rating of C-01 already");
        MarkSession session = marking.open("C-01", "A1", false, Unit.RUBRIC);
        assertThat(session.amendment()).isEqualTo("leak seen afterwards");
        refused(session::sign, "the same as the signed ones");
        session.mark("closure", 1);
        // what counts is still what was signed
        assertThat(stored()).extracting(StoredRating::state).containsExactly(RatingState.SIGNED, RatingState.DRAFT);
        amending.giveUp("C-01", ID, "A1", false);
        assertThat(stored()).extracting(StoredRating::state).containsExactly(RatingState.SIGNED);
        assertThat(marking.open("C-01", "A1", false, Unit.RUBRIC).state()).isEqualTo(RatingState.SIGNED);

        amending.begin("C-01", ID, "A1", false, "leak seen afterwards");
        MarkSession second = marking.open("C-01", "A1", false, Unit.RUBRIC);
        second.mark("closure", 1);
        second.sign();
        assertThat(stored())
                .extracting(StoredRating::state)
                .containsExactly(RatingState.SUPERSEDED, RatingState.SIGNED);
        assertThat(stored().get(1).amends()).isEqualTo(first);
        assertThat(stored().get(0).rating()).isEqualTo(Unit.rating("A1", false));
    }

    @Test
    void onlyWhatIsSignedCanBeAmended() {
        refused(() -> marking.amend("C-01", Unit.rating("A1", false), "why"), "A1 has signed no rating of C-01");
        marking.rate("C-01", Unit.rating("A1", false));
        refused(() -> marking.amend("C-01", Unit.rating("A1", false), "why"), "A1 has signed no rating of C-01");
    }

    @Test
    void traineesMarkThemselvesAndAssessorsMarkOthers() {
        refused(() -> marking.rate("C-01", Unit.rating("T04", true)), "only be by its trainee T03");
        refused(() -> marking.rate("C-01", Unit.rating("T03", false)), "T03 is the trainee of C-01", "self-rating");
        refused(() -> marking.open("C-01", "T04", true, Unit.RUBRIC), "only be by its trainee T03");
        refused(() -> marking.open("C-01", "T03", false, Unit.RUBRIC), "T03 is the trainee of C-01");
        assertThat(stored()).isEmpty();
        marking.rate("C-01", Unit.rating("T03", true));
        marking.rate("C-01", Unit.rating("A1", false));
        assertThat(stored()).hasSize(2);
    }

    @Test
    void marksThatTheRubricDoesNotKnowAreRefusedAndNothingIsStored() {
        refused(
                () -> marking.rate("C-01", Unit.withPoints(Unit.rating("A1", false), "view", 5)),
                "\"view\" cannot be given 5 points");
        Rating excused = new Rating(
                ID,
                "1.0.0",
                "A1",
                false,
                false,
                List.of(new ItemScore.Excused("view", NotApplicable.DONE_BY_TRAINER, "")),
                "");
        refused(() -> marking.rate("C-01", excused), "\"view\" cannot be left unmarked as done_by_trainer");
        refused(() -> marking.rate("C-09", Unit.rating("A1", false)), "there is no case C-09");
        refused(() -> marking.rate("C-01", Unit.rating("two words", false)), "cannot be the code of an assessor");
        assertThat(workspace.<List<StoredRating>>read(s -> s.ratings().all())).isEmpty();
    }

    @Test
    void aCodeWithBlanksAroundItIsTheSameAssessor() {
        marking.rate("C-01", Unit.rating(" A1 ", false));
        refused(() -> marking.rate("C-01", Unit.rating(" T03", false)), "T03 is the trainee of C-01");
        assertThat(marking.sign("C-01", ID, "A1", false).state()).isEqualTo(RatingState.SIGNED);
        assertThat(stored().get(0).rating().assessor()).isEqualTo("A1");
        assertThat(marking.amend("C-01", Unit.withPoints(Unit.rating("A1 ", false), "view", 4), "why")
                        .state())
                .isEqualTo(RatingState.SIGNED);
    }

    @Test
    void aRatingOfAnOlderVersionOfTheRubricIsRefusedByItsVersions() throws IOException {
        marking.rate("C-01", Unit.rating("A2", false));
        marking.rate("C-01", Unit.rating("A1", false));
        marking.sign("C-01", ID, "A1", false);
        newVersion("1.1.0");
        for (String assessor : List.of("A1", "A2")) {
            refused(
                    () -> {
                        if (assessor.equals("A1")) {
                            marking.amend("C-01", Unit.rating(assessor, false), "why");
                        } else {
                            marking.rate("C-01", Unit.rating(assessor, false));
                        }
                    },
                    "made with phaco-competency 1.0.0",
                    "not with phaco-competency 1.1.0");
        }
        assertThat(stored()).extracting(r -> r.rating().rubricVersion()).containsOnly("1.0.0");
    }

    @Test
    void aDraftIsReadAndSignedWithTheRubricThatItWasBegunWith() throws IOException {
        marking.rate("C-01", Unit.rating("A1", false, "view"));
        newVersion("1.1.0");
        MarkSession session = marking.open("C-01", "A1", false, Unit.RUBRIC);
        assertThat(session.rubric().version()).isEqualTo("1.0.0");
        session.mark("view", 2);
        session.sign();
        assertThat(stored().get(0).rating().rubricVersion()).isEqualTo("1.0.0");
        assertThat(marking.open("C-01", "A2", false, Unit.RUBRIC).rubric().version())
                .isEqualTo("1.1.0");
    }

    private void newVersion(String version) throws IOException {
        String text = ShippedRubrics.text("phaco-competency.json")
                .replace("\"version\": \"1.0.0\"", "\"version\": \"" + version + "\"");
        Files.writeString(Files.createDirectories(temp.resolve("rubrics")).resolve("ours.json"), text);
    }
}
