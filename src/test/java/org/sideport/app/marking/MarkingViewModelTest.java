package org.sideport.app.marking;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.RunLater;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.player.DemoRecordings;
import org.sideport.workflow.AmendMark;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.RubricWorkshop;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.Vocabularies;

class MarkingViewModelTest {

    @TempDir
    Path folder;

    private Bench bench;
    private MarkingViewModel model;

    @BeforeEach
    void open() {
        bench = new Bench(folder);
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        model = bench.marking();
        bench.current.open("C-1");
        model.setAssessor("A1");
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private Rubric rubric() {
        return model.rubricProperty().get();
    }

    private Rubric.Item item(int place) {
        return rubric().items().get(place);
    }

    private int top() {
        return rubric().maximumOf(item(0));
    }

    private void markEverything() {
        rubric().items().forEach(item -> model.mark(item, rubric().maximumOf(item)));
    }

    @Test
    void digitsMarkTheItemInFocus() {
        model.focus(1);
        assertThat(model.markFocused(top())).isTrue();

        assertThat(model.scoreOf(item(1))).isEqualTo(new ItemScore.Marked(item(1).id(), top(), ""));
        assertThat(model.scoreOf(item(0))).isNull();
    }

    @Test
    void aDigitThatTheScaleLacksMeansNothing() {
        assertThat(model.markFocused(9)).isFalse();
        assertThat(model.scoreOf(item(0))).isNull();
    }

    @Test
    void theShareCountsMarkedItemsOnly() {
        model.mark(item(0), top());
        Rubric.Item excusable = rubric().items().stream()
                .filter(i -> i.notApplicable().contains(NotApplicable.NOT_VISIBLE))
                .filter(i -> !i.equals(item(0)))
                .findFirst()
                .orElseThrow();
        model.excuse(excusable, NotApplicable.NOT_VISIBLE);

        // full marks in the one applicable item: the excused one neither helps nor harms
        assertThat(model.marksProperty().get().score().share()).isEqualTo(1.0);
        assertThat(model.marksProperty().get().score().missing())
                .hasSize(rubric().items().size() - 2);
    }

    @Test
    void signingWaitsForTheLastItem() {
        model.mark(item(0), top());
        model.sign();
        assertThat(model.marksProperty().get().state()).isEqualTo(RatingState.DRAFT);
        assertThat(bench.notice())
                .isEqualTo((rubric().items().size() - 1) + " items have neither a mark nor a reason yet");

        markEverything();
        assertThat(model.whyNoSigning()).isNull();
        model.sign();
        assertThat(model.marksProperty().get().state()).isEqualTo(RatingState.SIGNED);
    }

    @Test
    void signedMarksDoNotChange() {
        markEverything();
        model.sign();
        model.clear(item(0));

        assertThat(model.scoreOf(item(0))).isNotNull();
        assertThat(bench.notice()).startsWith("Signed marks do not change");
    }

    @Test
    void marksComeBackWhenTheCaseIsOpenedAgain() {
        model.mark(item(2), top());
        model.comment(item(2), "steady");
        Bench.addCase(bench.workspace, "C-2");
        bench.current.open("C-2");
        assertThat(model.scoreOf(item(2))).isNull();

        bench.current.open("C-1");
        assertThat(model.scoreOf(item(2))).isEqualTo(new ItemScore.Marked(item(2).id(), top(), "steady"));
    }

    @Test
    void theTraineesOwnCodeMakesASelfAssessment() {
        assertThat(model.isSelf()).isFalse();
        model.setAssessor("T02");

        assertThat(model.isSelf()).isTrue();
        assertThat(model.marksProperty().get().rating().self()).isTrue();
    }

    @Test
    void withoutACodeNothingIsMarked() {
        model.setAssessor("");
        model.mark(item(0), top());

        assertThat(model.marksProperty().get()).isNull();
        assertThat(bench.notice()).contains("Marking as");
    }

    @Test
    void itemsLeadToTheirPhaseEpisodeByEpisode() {
        var session = new TagRecording(bench.workspace).open("C-1", "A9");
        Rubric.Item item = rubric().items().stream()
                .filter(i -> i.phase() != null)
                .findFirst()
                .orElseThrow();
        assertThat(model.whyNoJump(item)).contains("not tagged");
        session.startPhase(item.phase(), MediaTime.ofSeconds(5), null);
        session.endPhase(MediaTime.ofSeconds(8));
        session.startPhase(item.phase(), MediaTime.ofSeconds(12), null);
        session.endPhase(MediaTime.ofSeconds(13));
        Bench.addCase(bench.workspace, "C-2");
        bench.current.open("C-2");
        bench.current.open("C-1");

        model.jump(item);
        assertThat(bench.desk.timeProperty().get()).isEqualTo(MediaTime.ofSeconds(5));
        model.jump(item);
        assertThat(bench.desk.timeProperty().get()).isEqualTo(MediaTime.ofSeconds(12));
        model.jump(item);
        assertThat(bench.desk.timeProperty().get()).isEqualTo(MediaTime.ofSeconds(5));
    }

    @Test
    void focusStaysWithinTheRubric() {
        model.focus(-1);
        assertThat(model.focusedProperty().get()).isZero();
        model.focus(1000);
        assertThat(model.focusedProperty().get()).isEqualTo(rubric().items().size() - 1);
    }

    @Test
    void eachStrokeOfAWordIsInTheStoreAndOneThatIsTakenBackToo() {
        model.mark(item(0), top());
        for (String typed : List.of("a", "ab", "a", "")) {
            model.comment(item(0), typed);
            model.overallComment(typed + "!");
            model.agree(List.of(typed, "slower"));
            Rating stored = bench.workspace.read(
                    stores -> stores.ratings().ofCase("C-1").get(0).rating());
            assertThat(stored.score(item(0).id()).orElseThrow().comment()).isEqualTo(typed);
            assertThat(stored.comment()).isEqualTo(typed + "!");
            assertThat(stored.actions()).isEqualTo(typed.isEmpty() ? List.of("slower") : List.of(typed, "slower"));
        }
    }

    @Test
    void oneKeyGoesToTheNextItemWithoutAMarkAndRoundAgain() {
        model.focus(0);
        model.mark(item(1), top());
        model.focusNextMissing();
        assertThat(model.focusedProperty().get()).isEqualTo(2);
        markEverything();
        model.clear(item(0));
        model.focus(5);
        model.focusNextMissing();
        assertThat(model.focusedProperty().get()).isZero();
        model.mark(item(0), top());
        model.focusNextMissing();
        assertThat(bench.notice()).isEqualTo("Every item has a mark or a reason");
    }

    @Test
    void whatWasBegunInAnEarlierVersionIsShownAndGoesOnInIt() {
        model.mark(item(0), top());
        Rubric old = rubric();
        RubricWorkshop workshop = new RubricWorkshop(bench.workspace);
        RubricWorkshop.Opened next = workshop.open(workshop.shelf().stream()
                .filter(s -> s.id().equals(old.id()))
                .findFirst()
                .orElseThrow());
        String gone = old.items().get(1).id();
        workshop.save(next, next.draft().without("/items", 1).withFate(gone, null));

        MarkingViewModel again = bench.marking();
        again.setAssessor("A1");
        assertThat(again.rubricProperty().get()).isEqualTo(old);
        again.mark(old.items().get(1), top());
        assertThat(again.scoreOf(old.items().get(1))).isNotNull();
        // who begins now begins with the new one
        again.setAssessor("A9");
        assertThat(again.rubricProperty().get().version()).isEqualTo("1.1.0");
    }

    @Test
    void whatWasSignedIsAmendedHereWithAReasonOrTheAmendmentIsGivenUp() {
        markEverything();
        assertThat(model.amendment().isOffered()).isFalse();
        model.sign();
        assertThat(model.amendment().isOffered()).isTrue();
        assertThat(model.whyNoMarking()).contains("Amend…");
        model.amendment().begin("leak seen afterwards");
        assertThat(model.amendment().reason()).isEqualTo("leak seen afterwards");
        assertThat(model.whyNoMarking()).isNull();
        int less = rubric().pointsOf(item(0)).get(0);
        model.mark(item(0), less);
        model.amendment().giveUp();
        assertThat(model.scoreOf(item(0))).isEqualTo(new ItemScore.Marked(item(0).id(), top(), ""));
        assertThat(model.amendment().isOffered()).isTrue();

        model.amendment().begin("leak seen afterwards");
        model.mark(item(0), less);
        model.sign();
        assertThat(model.amendment().isOffered()).isTrue();
        assertThat(model.scoreOf(item(0))).isEqualTo(new ItemScore.Marked(item(0).id(), less, ""));
        assertThat(bench.workspace.<List<RatingState>>read(stores -> stores.ratings().ofCase("C-1").stream()
                        .map(org.sideport.store.StoredRating::state)
                        .toList()))
                .containsExactly(RatingState.SUPERSEDED, RatingState.SIGNED);
    }

    @Test
    void wordsThatFollowAMarkAtOnceStandWithIt() {
        assertThat(model.whyNoComment()).startsWith("Mark the item first");
        RunLater slow = new RunLater();
        MarkingViewModel hasty = new MarkingViewModel(
                bench.current,
                bench.desk,
                new MarkCase(bench.workspace),
                new AmendMark(bench.workspace),
                new Vocabularies(bench.workspace),
                new TagRecording(bench.workspace),
                slow,
                bench.notices,
                bench.texts,
                bench.settings);
        slow.all();
        Rubric.Item first = hasty.focusedItem();
        hasty.mark(first, top());
        hasty.comment(first, "calm");
        hasty.toggleEvidence(first, MediaTime.ofMicros(2_000_000));
        assertThat(hasty.scoreOf(first)).isNull();
        assertThat(hasty.isComing(first)).isTrue();

        slow.all();
        assertThat(hasty.isComing(first)).isFalse();
        assertThat(bench.workspace
                        .read(stores -> stores.ratings().ofCase("C-1").get(0).rating())
                        .score(first.id())
                        .orElseThrow())
                .isEqualTo(
                        new ItemScore.Marked(first.id(), top(), null, "calm", List.of(MediaTime.ofMicros(2_000_000))));
    }
}
