package org.sideport.stats.standard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.resample.Bootstrap;

/** Borderline regression and borderline group; expected values from R (src/test/oracle/standard/standard.R: lm, predict). */
class BorderlineTest {

    private static final Bootstrap BOOTSTRAP = new Bootstrap(1000, 3, 0.95);
    private static final double[] GRADE = {1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4, 5, 5};
    private static final double[] SCORE = {38, 44, 51, 47, 55, 62, 58, 66, 74, 71, 78, 88, 84};
    private static final BorderlineRegression FIT =
            BorderlineRegression.of(GRADE, SCORE).orElseThrow();

    /** Own data, worked out outside this program: 28.6783 + 11.3636 g, r² .9597, s 3.2946. */
    @Test
    void lineOfTheWorkedExample() {
        assertThat(FIT.intercept()).isCloseTo(28.6783216783, within(1e-10));
        assertThat(FIT.slope()).isCloseTo(11.3636363636, within(1e-10));
        assertThat(FIT.r2()).isCloseTo(0.9596668273, within(1e-10));
        assertThat(FIT.residualSd()).isCloseTo(3.29460442375, within(1e-11));
    }

    /** Own data, worked out outside this program: 51.4056 (1.1525), 57.0874 (.9789), 62.7692 (.9138); grade 6 lies beyond the data. */
    @ParameterizedTest
    @CsvSource({
        "2, 51.4055944056, 1.152535424594",
        "2.5, 57.0874125874, 0.978928453534",
        "3, 62.7692307692, 0.913758860168",
        "6, 96.8601398601, 2.296823699852"
    })
    void cutAtAnyGrade(double grade, double cut, double se) {
        Estimate found = FIT.cut(grade, BOOTSTRAP);
        assertThat(found.value()).isCloseTo(cut, within(1e-10));
        assertThat(found.se()).isCloseTo(se, within(1e-11));
        assertThat(found.n()).isEqualTo(13);
        assertThat(found.limits()).isNotNull();
        assertThat(found.limits().contains(cut)).isTrue();
        assertThat(found.limits().upper() - found.limits().lower()).isBetween(1.5 * se, 6 * se);
    }

    @Test
    void limitsAreTheBootstrapOverPerformances() {
        assertThat(FIT.cut(2.5, BOOTSTRAP).limits())
                .isEqualTo(BOOTSTRAP.bca(13, idx -> lineAt(idx, 2.5)).orElseThrow());
    }

    /** By Cramer's rule from raw sums. */
    private static double lineAt(int[] indices, double grade) {
        double sx = 0;
        double sy = 0;
        double n = indices.length;
        for (int i : indices) {
            sx += GRADE[i] / n;
            sy += SCORE[i] / n;
        }
        double xx = 0;
        double xy = 0;
        for (int i : indices) {
            xx += (GRADE[i] - sx) * (GRADE[i] - sx);
            xy += (GRADE[i] - sx) * (SCORE[i] - sy);
        }
        return sy + xy / xx * (grade - sx);
    }

    @Test
    void warningsSayWhatTheCutRestsOn() {
        assertThat(FIT.cut(2, BOOTSTRAP).warnings())
                .singleElement()
                .asString()
                .isEqualTo("Only 3 performances were graded within 1 of 2; below about 10 the cut rests on the straight"
                        + " line.");
        assertThat(FIT.cut(2.5, BOOTSTRAP).warnings().get(0)).contains("Only 6").contains("2.5");
        assertThat(FIT.cut(6, BOOTSTRAP).warnings())
                .contains("Grade 6 lies outside the grades given, 1 to 5: the line is drawn on beyond the data.");
        assertThat(FIT.cut(0.5, BOOTSTRAP).warnings().get(0)).startsWith("Grade 0.5 lies outside");
        assertThat(FIT.cut(5, BOOTSTRAP).warnings().get(0)).startsWith("Only 2");
        assertThat(FIT.cut(1, BOOTSTRAP).warnings().get(0)).startsWith("Only 2");
        double[] grade = new double[40];
        double[] score = new double[40];
        for (int i = 0; i < 40; i++) {
            grade[i] = 1 + i % 4;
            score[i] = grade[i] + (i / 4 % 2 == 0 ? 3 : -3);
        }
        Estimate weak = BorderlineRegression.of(grade, score).orElseThrow().cut(2, BOOTSTRAP);
        // r² = 1.25 / (1.25 + 9) = 12.2 %
        assertThat(weak.warnings()).singleElement().asString().contains("explain only 12 %");
    }

    private static Refusal refusal(double[] grade, double[] score) {
        return ((Outcome.Refused<BorderlineRegression>) BorderlineRegression.of(grade, score)).refusal();
    }

    @Test
    void unfitGradesAreRefused() {
        assertThat(refusal(new double[] {1, 2, 3}, new double[] {1, 2, 3}).reason())
                .isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(refusal(new double[] {2, 2, 2, 2}, new double[] {1, 2, 3, 4}).why())
                .isEqualTo("all 4 grades are equal");
        assertThat(refusal(new double[] {1, 2, 3, 4}, new double[] {7, 7, 7, 7}).why())
                .isEqualTo("all 4 scores are equal");
        assertThat(refusal(new double[] {1, 2, 3, 4}, new double[] {7, 6, 5, 4}).reason())
                .isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        assertThat(refusal(new double[] {1, 2, 2, 1}, new double[] {1, 1, 2, 2}).why())
                .isEqualTo("the scores do not rise with the grades");
        assertThatThrownBy(() -> BorderlineRegression.of(new double[] {1}, new double[0]))
                .hasMessageContaining("1 grades for 0 scores");
    }

    @Test
    void aPerfectLineHasNoError() {
        BorderlineRegression fit = BorderlineRegression.of(new double[] {1, 2, 3, 4}, new double[] {10, 20, 30, 40})
                .orElseThrow();
        assertThat(fit.r2()).isEqualTo(1);
        assertThat(fit.residualSd()).isZero();
        assertThat(fit.cut(2, BOOTSTRAP).value()).isCloseTo(20, within(1e-12));
    }

    /** Changing the unit of scores or grades changes the cut in that unit only. */
    @Property(tries = 30)
    void unitsDoNotMatter(@ForAll @IntRange(min = 1, max = 20) int factor, @ForAll @IntRange(max = 100) int shift) {
        double[] grade = Arrays.stream(GRADE).map(g -> 2 * g + shift).toArray();
        double[] score = Arrays.stream(SCORE).map(s -> s * factor - shift).toArray();
        Bootstrap quick = new Bootstrap(100, 1, 0.9);
        BorderlineRegression changed = BorderlineRegression.of(grade, score).orElseThrow();
        Estimate before = FIT.cut(2.5, quick);
        Estimate after = changed.cut(5 + shift, quick);
        assertThat(after.value()).isCloseTo(before.value() * factor - shift, within(1e-8));
        assertThat(after.se()).isCloseTo(before.se() * factor, within(1e-8));
        assertThat(changed.r2()).isCloseTo(FIT.r2(), within(1e-10));
        assertThat(after.limits().lower()).isCloseTo(before.limits().lower() * factor - shift, within(1e-7));
    }

    /** The group graded 2 of the same data: mean 51, SE 2.3094, median 51. */
    @Test
    void borderlineGroupIsTheMeanOfTheBorderline() {
        BorderlineGroup found =
                BorderlineGroup.of(new double[] {51, 47, 55}, BOOTSTRAP).orElseThrow();
        assertThat(found.cut().value()).isEqualTo(51);
        assertThat(found.cut().se()).isCloseTo(2.30940107676, within(1e-11));
        assertThat(found.median().value()).isEqualTo(51);
        assertThat(found.median().se()).isNull();
        assertThat(found.cut().n()).isEqualTo(3);
        assertThat(found.scores().n()).isEqualTo(3);
        assertThat(found.cut().warnings().get(0))
                .isEqualTo("Only 3 were graded borderline; below about 10 the cut is unsteady.");
    }

    @Test
    void limitsOfTheBorderlineGroupAreTheBootstrap() {
        double[] scores = {51, 47, 55, 61, 50, 48, 52, 57, 49, 90};
        BorderlineGroup found = BorderlineGroup.of(scores, BOOTSTRAP).orElseThrow();
        assertThat(found.cut().warnings()).isEmpty();
        assertThat(found.cut().limits())
                .isEqualTo(BOOTSTRAP
                        .bca(
                                10,
                                idx -> Arrays.stream(idx)
                                        .mapToDouble(i -> scores[i])
                                        .average()
                                        .orElseThrow())
                        .orElseThrow());
        assertThat(found.median().value()).isEqualTo(51.5);
        assertThat(found.median().limits()).isNotNull();
        assertThat(found.median().limits())
                .isEqualTo(BOOTSTRAP
                        .bca(
                                10,
                                idx -> org.sideport.stats.Quantiles.type7(
                                        Arrays.stream(idx)
                                                .mapToDouble(i -> scores[i])
                                                .toArray(),
                                        0.5))
                        .orElseThrow());
        double[] odd = Arrays.copyOf(scores, 9);
        assertThat(BorderlineGroup.of(odd, BOOTSTRAP).orElseThrow().median().limits())
                .isEqualTo(BOOTSTRAP
                        .bca(
                                9,
                                idx -> org.sideport.stats.Quantiles.type7(
                                        Arrays.stream(idx)
                                                .mapToDouble(i -> odd[i])
                                                .toArray(),
                                        0.5))
                        .orElseThrow());
    }

    @Test
    void anEmptyBorderlineGroupIsRefused() {
        Refusal none = ((Outcome.Refused<BorderlineGroup>) BorderlineGroup.of(new double[0], BOOTSTRAP)).refusal();
        assertThat(none.why()).isEqualTo("nobody was graded borderline");
        assertThat(none.reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        Refusal one = ((Outcome.Refused<BorderlineGroup>) BorderlineGroup.of(new double[] {5}, BOOTSTRAP)).refusal();
        assertThat(one.why()).isEqualTo("only one was graded borderline");
        assertThat(BorderlineGroup.of(new double[] {5, 6}, BOOTSTRAP)
                        .orElseThrow()
                        .cut()
                        .limits())
                .isNull();
    }
}
