package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.sideport.model.NotApplicable.DONE_BY_TRAINER;
import static org.sideport.model.NotApplicable.NOT_PERFORMED;
import static org.sideport.model.NotApplicable.NOT_VISIBLE;
import static org.sideport.rubric.Rubrics.check;
import static org.sideport.rubric.Rubrics.excuse;
import static org.sideport.rubric.Rubrics.item;
import static org.sideport.rubric.Rubrics.mark;
import static org.sideport.rubric.Rubrics.number;
import static org.sideport.rubric.Rubrics.rating;
import static org.sideport.rubric.Rubrics.rubric;
import static org.sideport.rubric.Rubrics.value;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score.DomainScore;
import org.sideport.rubric.Score.Verdict;

/** Expected figures are worked out by hand; the arithmetic stands beside them. */
class ScorerTest {

    /** 20 items on levels 2 to 5, as the published form has (Golnik et al. 2013): 20 × 5 = 100. */
    private static Rubric twentyItems() {
        return rubric(
                2,
                5,
                null,
                IntStream.rangeClosed(1, 20)
                        .mapToObj(i -> item("i" + i, i <= 14 ? "a" : "b", 1, null))
                        .toArray(Rubric.Item[]::new));
    }

    private static Rating marks(int applicable, int points) {
        List<ItemScore> scores = new ArrayList<>();
        for (int i = 1; i <= 20; i++) {
            scores.add(i <= applicable ? mark("i" + i, points) : excuse("i" + i, DONE_BY_TRAINER));
        }
        return rating(scores.toArray(ItemScore[]::new));
    }

    @Test
    void twentyItemsOfFiveAreAHundredPoints() {
        Score score = Scorer.score(twentyItems(), marks(20, 5));

        assertThat(score.points()).isEqualTo(100);
        assertThat(score.maximum()).isEqualTo(100);
        assertThat(score.share()).isEqualTo(1.0);
    }

    @Test
    void countsAndMeasuresGetThePointsOfTheirBand() {
        Rubric.Item errors = number("errors", "a", Rubric.Kind.COUNT, 0, 3, 1, 2, 3, 0);
        // best in the middle: a size may be too small and too large
        Rubric.Item size = number("size", "b", Rubric.Kind.MEASURED, 0, 0, 4.5, 2, 5.5, 1);
        assertThat(errors.band(0).points()).isEqualTo(3);
        assertThat(errors.band(1).points()).isEqualTo(2);
        assertThat(errors.band(2).points()).isEqualTo(2);
        assertThat(errors.band(7).points()).isZero();
        assertThat(size.band(4.49).points()).isZero();
        assertThat(size.band(4.5).points()).isEqualTo(2);
        assertThat(size.band(5.5).points()).isEqualTo(1);
        Score score = Scorer.score(rubric(1, 4, null, errors, size), rating(value(errors, 2), value(size, 5)));
        // 2 of 3 and 2 of 2
        assertThat(score.points()).isEqualTo(4);
        assertThat(score.maximum()).isEqualTo(5);
        assertThat(score.share()).isCloseTo(0.8, within(1e-12));
    }

    @Test
    void aMeasuredItemAloneNeverMakesARatingMissTheStandard() {
        Rubric.Item time = number("time", "b", Rubric.Kind.MEASURED, 0, 4, 60, 0);
        Rubric rubric = rubric(1, 4, 0.75, item("skill", "a", 1, null), time);
        // skill 3 of 4 is the standard; with a slow time 3 of 8 would miss it, with a fast one 7 of 8 meets it
        assertThat(Scorer.score(rubric, rating(mark("skill", 3), value(time, 90)))
                        .verdict())
                .isEqualTo(Verdict.MET);
        assertThat(Scorer.score(rubric, rating(mark("skill", 3), value(time, 90)))
                        .share())
                .isCloseTo(0.375, within(1e-12));
        assertThat(Scorer.score(rubric, rating(mark("skill", 3), value(time, 30)))
                        .verdict())
                .isEqualTo(Verdict.MET);
        // 1 of 4 with the fastest time is 5 of 8: missed
        assertThat(Scorer.score(rubric, rating(mark("skill", 1), value(time, 30)))
                        .verdict())
                .isEqualTo(Verdict.NOT_MET);
    }

    @Test
    void aCountedItemCanMakeARatingMissTheStandard() {
        Rubric.Item errors = number("errors", "b", Rubric.Kind.COUNT, 0, 4, 2, 0);
        Rubric rubric = rubric(1, 4, 0.75, item("skill", "a", 1, null), errors);
        assertThat(Scorer.score(rubric, rating(mark("skill", 3), value(errors, 2)))
                        .verdict())
                .isEqualTo(Verdict.NOT_MET);
    }

    @Test
    void aValueThatDoesNotFitItsItemIsRefused() {
        Rubric.Item errors = number("errors", "b", Rubric.Kind.COUNT, 0, 4, 2, 0);
        Rubric rubric = rubric(1, 4, null, item("skill", "a", 1, null), errors);
        assertThatThrownBy(() -> Scorer.score(rubric, rating(marked("skill", 3, 1.0))))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("neither counted nor measured");
        assertThatThrownBy(() -> Scorer.score(rubric, rating(marked("errors", 4, 0.5))))
                .hasMessageContaining("cannot be 0.5")
                .hasMessageContaining("whole number from 0 on");
        assertThatThrownBy(() -> Scorer.score(rubric, rating(marked("errors", 4, -1.0))))
                .hasMessageContaining("cannot be -1");
        assertThatThrownBy(() -> Scorer.score(rubric, rating(marked("errors", 4, 2.0))))
                .hasMessageContaining("of 2 does not get 4 points");
    }

    private static ItemScore marked(String item, int points, double value) {
        return new ItemScore.Marked(item, points, value, "", List.of());
    }

    @Test
    void allLowestLevelsOfAScaleFromTwoAreTwoFifthsNotZero() {
        // 20 × 2 = 40 of 100
        assertThat(Scorer.score(twentyItems(), marks(20, 2)).share()).isEqualTo(0.4);
    }

    @Test
    void stepsDoneByTheTrainerLeaveTheMaximum() {
        // nine applicable items: 9 × 4 = 36 of 9 × 5 = 45, 36 / 45 = 0.8; over all twenty it would be 36 / 100
        Score score = Scorer.score(twentyItems(), marks(9, 4));

        assertThat(score.points()).isEqualTo(36);
        assertThat(score.maximum()).isEqualTo(45);
        assertThat(score.share()).isEqualTo(0.8);
        assertThat(score.items()).isEqualTo(20);
        assertThat(score.marked()).isEqualTo(9);
        assertThat(score.excused()).isEqualTo(Map.of(DONE_BY_TRAINER, 11));
        assertThat(score.excusedCount()).isEqualTo(11);
        assertThat(score.complete()).isTrue();
    }

    @Test
    void weightsCountInTheShareAndNotInThePlainSum() {
        Rubric rubric = rubric(1, 4, null, item("x", "a", 2, null), item("y", "a", 1, null), item("z", "b", 0.5, null));
        // 2·3 + 1·4 + 0.5·1 = 10.5 of 2·4 + 1·4 + 0.5·4 = 14: 10.5 / 14 = 0.75; plain 3 + 4 + 1 = 8 of 12
        Score score = Scorer.score(rubric, rating(mark("x", 3), mark("y", 4), mark("z", 1)));

        assertThat(score.share()).isCloseTo(0.75, within(1e-12));
        assertThat(score.points()).isEqualTo(8);
        assertThat(score.maximum()).isEqualTo(12);
        // domain a: (2·3 + 4) / (2·4 + 4) = 10 / 12; domain b: 0.5 / 2
        assertThat(score.domains())
                .containsExactly(new DomainScore("a", 2, 2, 7, 8, 10.0 / 12), new DomainScore("b", 1, 1, 1, 4, 0.25));
    }

    @Test
    void eachReasonIsCountedByItselfAndMissingItemsAreNamed() {
        Rubric rubric = rubric(
                1,
                4,
                0.5,
                item("p", "a", 1, null),
                item("q", "a", 1, null),
                item("r", "a", 1, null),
                item("s", "a", 1, null),
                item("t", "b", 1, null));
        Score score = Scorer.score(
                rubric,
                rating(mark("p", 4), excuse("q", NOT_VISIBLE), excuse("r", NOT_PERFORMED), excuse("s", NOT_VISIBLE)));

        assertThat(score.excused()).isEqualTo(Map.of(NOT_VISIBLE, 2, NOT_PERFORMED, 1));
        assertThat(score.missing()).containsExactly("t");
        assertThat(score.complete()).isFalse();
        assertThat(score.share()).isEqualTo(1.0);
        assertThat(score.domains().get(1)).isEqualTo(new DomainScore("b", 1, 0, 0, 0, null));
    }

    @Test
    void anIncompleteRatingHasNoVerdictEvenWithACriticalFailure() {
        Rubric rubric = rubric(1, 4, 0.5, item("p", "a", 1, 2), item("q", "a", 1, null));
        Score score = Scorer.score(rubric, rating(mark("p", 1)));

        assertThat(score.criticalFailures()).containsExactly("p");
        assertThat(score.verdict()).isNull();
    }

    @Test
    void withoutAPassStandardThereIsNoVerdict() {
        Rubric rubric = rubric(1, 4, null, item("p", "a", 1, 2));

        assertThat(Scorer.score(rubric, rating(mark("p", 4))).verdict()).isNull();
        assertThat(Scorer.score(rubric, rating(mark("p", 1))).verdict()).isNull();
    }

    @Test
    void nothingMarkedHasNeitherShareNorVerdict() {
        Rubric rubric = rubric(1, 4, 0.0, item("p", "a", 1, null));
        Score score = Scorer.score(rubric, rating(excuse("p", DONE_BY_TRAINER)));

        assertThat(score.complete()).isTrue();
        assertThat(score.share()).isNull();
        assertThat(score.verdict()).isNull();
    }

    @Test
    void theStandardIsMetFromItsOwnValueOn() {
        Rubric rubric = rubric(
                1,
                4,
                0.6,
                item("p", "a", 0.1, null),
                item("q", "a", 0.2, null),
                item("r", "a", 0.3, null),
                item("s", "a", 0.4, null));
        // 0.1·3 + 0.2·3 + 0.3·1 + 0.4·3 = 0.3 + 0.6 + 0.3 + 1.2 = 2.4 of 4 = 0.6 exactly
        Rating at = rating(mark("p", 3), mark("q", 3), mark("r", 1), mark("s", 3));
        // one point less on q: 2.2 of 4 = 0.55
        Rating below = rating(mark("p", 3), mark("q", 2), mark("r", 1), mark("s", 3));

        assertThat(Scorer.score(rubric, at).verdict()).isEqualTo(Verdict.MET);
        assertThat(Scorer.score(rubric, below).verdict()).isEqualTo(Verdict.NOT_MET);
    }

    @Test
    void aCriticalFailureOutweighsAnyShare() {
        Rubric rubric = rubric(
                1, 4, 0.5, item("p", "a", 1, 2), item("q", "a", 1, null), item("r", "a", 1, null), check("c", "b", 1));
        // share (1 + 4 + 4 + 1) / (4 + 4 + 4 + 1) = 10 / 13, far above 0.5
        Score failed = Scorer.score(rubric, rating(mark("p", 1), mark("q", 4), mark("r", 4), mark("c", 1)));
        // at the critical minimum itself it is no failure
        Score passed = Scorer.score(rubric, rating(mark("p", 2), mark("q", 4), mark("r", 4), mark("c", 1)));
        Score unchecked = Scorer.score(rubric, rating(mark("p", 4), mark("q", 4), mark("r", 4), mark("c", 0)));

        assertThat(failed.share()).isEqualTo(10.0 / 13);
        assertThat(failed.criticalFailures()).containsExactly("p");
        assertThat(failed.verdict()).isEqualTo(Verdict.NOT_MET);
        assertThat(passed.criticalFailures()).isEmpty();
        assertThat(passed.verdict()).isEqualTo(Verdict.MET);
        assertThat(unchecked.criticalFailures()).containsExactly("c");
    }

    @Test
    void aRatingOfAnotherVersionOrWithAForeignScoreIsRefused() {
        Rubric rubric = rubric(1, 4, 0.5, item("p", "a", 1, null), check("c", "b", null));

        assertThatThrownBy(() -> Scorer.score(rubric, new Rating("test", "1.1.0", "A1", false, false, List.of(), "")))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("test 1.1.0, not with test 1.0.0");
        assertThatThrownBy(() -> Scorer.score(rubric, rating(mark("p", 5))))
                .hasMessageContaining("\"p\" cannot be given 5 points");
        assertThatThrownBy(() -> Scorer.score(rubric, rating(mark("z", 1)))).hasMessageContaining("no item \"z\"");
        assertThatThrownBy(() -> Scorer.score(rubric, rating(excuse("c", NOT_VISIBLE))))
                .hasMessageContaining("cannot be left unmarked as not_visible");
        assertThatThrownBy(() -> Scorer.score(rubric, rating(mark("p", 1), mark("p", 2))))
                .hasMessageContaining("marked twice");
    }
}
