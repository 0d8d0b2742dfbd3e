package org.sideport.stats.rasch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;

/** Closed forms of the literature, refusals, extreme marks. */
class ManyFacetRaschTest {

    private static ManyFacetRasch fit(RaschData data, StepModel model) {
        return ManyFacetRasch.fit(data.marks(), model, Estimation.CONDITIONAL, 0.95)
                .orElseThrow();
    }

    private static Refusal refusal(RaschData data, StepModel model) {
        return ((Outcome.Refused<ManyFacetRasch>) ManyFacetRasch.fit(data.marks(), model, Estimation.CONDITIONAL, 0.95))
                .refusal();
    }

    /** Trainees who pass the first item only, the second only, both, none. */
    private static RaschData twoItems(int first, int second, int both, int none) {
        RaschData data = new RaschData();
        int t = 0;
        for (int[] kind : new int[][] {{first, 1, 0}, {second, 0, 1}, {both, 1, 1}, {none, 0, 0}}) {
            for (int k = 0; k < kind[0]; k++) {
                data.add("T" + t, "A1", "I1", kind[1]).add("T" + t, "A1", "I2", kind[2]);
                t++;
            }
        }
        return data;
    }

    /**
     * Two items: the conditional estimate of the difference is log(n10/n01) with SE √(1/n10 + 1/n01) (Rasch 1960, chapter
     * X; Andersen 1973, from memory). The joint estimate is twice that, since each trainee with one mark of two stands
     * half way; Wright & Douglas 1977 halve it, (L − 1)/L with L = 2, and the two agree exactly.
     */
    @ParameterizedTest
    @CsvSource({"12, 5, 3, 2", "7, 7, 0, 0", "3, 20, 1, 9"})
    void twoItemsHaveTheClosedFormThatTheCorrectedJointEstimateEquals(int first, int second, int both, int none) {
        ManyFacetRasch fit = fit(twoItems(first, second, both, none), StepModel.RATING_SCALE);
        double difference = Math.log((double) first / second);
        double joint = 2 * difference;
        assertThat(fit.items().get(1).logits().value()
                        - fit.items().get(0).logits().value())
                .isCloseTo(difference, within(1e-10))
                .isCloseTo(joint * (2 - 1) / 2, within(1e-10));
        double se = Math.sqrt(1.0 / first + 1.0 / second);
        assertThat(fit.items().get(1).logits().se()).isCloseTo(se / 2, within(1e-10));
        // the joint equations themselves: expected passes of the first item at half way are those met
        double passes = (first + second) / (1 + Math.exp(-joint / 2));
        assertThat(passes).isCloseTo(first, within(1e-9));
        assertThat(fit.used()).isEqualTo(2 * (first + second));
        assertThat(fit.n()).isEqualTo(2 * (first + second + both + none));
        assertThat(fit.steps()).isEmpty();
        assertThat(fit.assessors().get(0).logits().value()).isZero();
        assertThat(fit.assessors().get(0).logits().se()).isNull();
        assertThat(fit.assessors().get(0).logits().limits()).isNull();
        assertThat(fit.assessors().get(0).fairAverage().se()).isNull();
        assertThat(fit.assessorsAlike()).isNull();
        assertThat(fit.assessorSeparation()).isNull();
        assertThat(fit.logLikelihood())
                .isCloseTo(
                        first * Math.log((double) first / (first + second))
                                + second * Math.log((double) second / (first + second)),
                        within(1e-10));
    }

    /** Two assessors in the place of two items: the same with the sign of severity, and Wald's test is z². */
    @Test
    void twoAssessorsHaveTheSameClosedForm() {
        RaschData data = new RaschData();
        for (int t = 0; t < 17; t++) {
            data.add("T" + t, "A1", "I1", t < 12 ? 5 : 4).add("T" + t, "A2", "I1", t < 12 ? 4 : 5);
        }
        ManyFacetRasch fit = fit(data, StepModel.PARTIAL_CREDIT);
        double half = Math.log(12.0 / 5) / 2;
        double se = Math.sqrt(1 / 12.0 + 1 / 5.0) / 2;
        Measure lenient = RaschData.find(fit.assessors(), "A1");
        assertThat(lenient.logits().value()).isCloseTo(-half, within(1e-10));
        assertThat(lenient.logits().se()).isCloseTo(se, within(1e-10));
        // 1.959964: 97.5 % point of the normal distribution
        assertThat(lenient.logits().limits().lower()).isCloseTo(-half - 1.959964 * se, within(1e-6));
        assertThat(lenient.logits().limits().upper()).isCloseTo(-half + 1.959964 * se, within(1e-6));
        assertThat(lenient.logits().n()).isEqualTo(17);
        assertThat(lenient.meanLevel()).isCloseTo(4 + 12 / 17.0, within(1e-12));
        assertThat(fit.assessorsAlike().df()).isEqualTo(1);
        double z = half / se;
        assertThat(fit.assessorsAlike().chiSquare()).isCloseTo(z * z, within(1e-9));
        assertThat(fit.assessorsAlike().p())
                .isCloseTo(
                        2
                                * (1
                                        - new org.hipparchus.distribution.continuous.NormalDistribution()
                                                .cumulativeProbability(z)),
                        within(1e-9));
        // each trainee stands at 0, half way: chances √12 and √5 parts
        double p = Math.sqrt(12) / (Math.sqrt(12) + Math.sqrt(5));
        assertThat(fit.trainees().get(0).logits().value()).isCloseTo(0, within(1e-9));
        // information 2 p q, and severities of equal weight shift nothing
        assertThat(fit.trainees().get(0).logits().se()).isCloseTo(1 / Math.sqrt(2 * p * (1 - p)), within(1e-9));
        assertThat(lenient.fairAverage().value()).isCloseTo(4 + p, within(1e-9));
        assertThat(lenient.fairAverage().se()).isCloseTo(se * p * (1 - p), within(1e-9));
        assertThat(lenient.fairAverage().limits().upper())
                .isCloseTo(4 + 1 / (1 + Math.exp(-half - 1.959964 * se)), within(1e-6));
        assertThat(lenient.fairAverage().limits().lower())
                .isCloseTo(4 + 1 / (1 + Math.exp(-half + 1.959964 * se)), within(1e-6));
        assertThat(fit.trainees().get(0).fairAverage().value()).isCloseTo(4.5, within(1e-9));
        // squared standardised residuals of A1: 12 times q/p, 5 times p/q
        double squares = (12 * (1 - p) / p + 5 * p / (1 - p)) / 17;
        assertThat(lenient.fit().outfit()).isCloseTo(squares, within(1e-9));
        assertThat(lenient.fit().infit()).isCloseTo(squares, within(1e-9));
        assertThat(fit.warnings()).contains("Only one item enters the estimation; how difficult it is cannot be told.");
    }

    /** Warm 1989: n equal items, r passed: log((r + ½)/(n − r + ½)), finite at the ends. */
    @ParameterizedTest
    @CsvSource({"0, 5", "1, 5", "3, 6", "6, 6", "20, 20"})
    void warmsEstimateOfEqualItemsHasAClosedForm(int passed, int items) {
        List<MarkCurve> curves =
                Collections.nCopies(items, new MarkCurve(new int[] {0, 1}, new double[] {.7, .7 - .25}));
        assertThat(Ability.warm(curves, passed))
                .isCloseTo(.25 + Math.log((passed + .5) / (items - passed + .5)), within(1e-10));
        if (passed > 0 && passed < items) {
            assertThat(Ability.maximumLikelihood(curves, passed))
                    .isCloseTo(.25 + Math.log((double) passed / (items - passed)), within(1e-10));
        }
        assertThat(Ability.information(curves, .25)).isCloseTo(items / 4.0, within(1e-12));
    }

    @Test
    void momentsOfAMarkAreThoseOfItsDistribution() {
        // probabilities 1/6, 1/3, 1/2 of 0, 1, 3: mean 11/6, central moments by hand
        MarkCurve curve = new MarkCurve(new int[] {0, 1, 3}, new double[] {0, Math.log(2), Math.log(3)});
        MarkCurve.Moments m = curve.moments(0);
        assertThat(m.mean()).isCloseTo(11 / 6.0, within(1e-14));
        assertThat(m.variance()).isCloseTo(53 / 36.0, within(1e-14));
        double third = (Math.pow(-11 / 6.0, 3) + 2 * Math.pow(-5 / 6.0, 3) + 3 * Math.pow(7 / 6.0, 3)) / 6;
        double fourth = (Math.pow(11 / 6.0, 4) + 2 * Math.pow(5 / 6.0, 4) + 3 * Math.pow(7 / 6.0, 4)) / 6;
        assertThat(m.third()).isCloseTo(third, within(1e-14));
        assertThat(m.fourth()).isCloseTo(fourth, within(1e-14));
        assertThat(curve.logSum(0)).isCloseTo(Math.log(6), within(1e-14));
        assertThat(curve.shifted(.5).probabilities(.1)).containsExactly(curve.probabilities(.6), within(1e-14));
    }

    /** Residuals by hand: two marks of chance p, Wright & Masters 1982 p. 100. */
    @Test
    void meanSquaresAreThoseOfTheFormulas() {
        MeanSquares.Sum sum = new MeanSquares.Sum();
        sum.add(1, new MarkCurve.Moments(.2, .16, 0, .0832));
        sum.add(0, new MarkCurve.Moments(.6, .24, 0, .0672));
        MeanSquares m = sum.meanSquares();
        double outfit = (.64 / .16 + .36 / .24) / 2;
        double infit = (.64 + .36) / .4;
        assertThat(m.n()).isEqualTo(2);
        assertThat(m.outfit()).isCloseTo(outfit, within(1e-12));
        assertThat(m.infit()).isCloseTo(infit, within(1e-12));
        double qOut = Math.sqrt((.0832 / .0256 + .0672 / .0576) / 4 - .5);
        double qIn = Math.sqrt(.0832 - .0256 + .0672 - .0576) / .4;
        assertThat(m.outfitZ()).isCloseTo((Math.cbrt(outfit) - 1) * 3 / qOut + qOut / 3, within(1e-12));
        assertThat(m.infitZ()).isCloseTo((Math.cbrt(infit) - 1) * 3 / qIn + qIn / 3, within(1e-12));
        MeanSquares.Sum even = new MeanSquares.Sum();
        even.add(1, new MarkCurve.Moments(.5, .25, 0, .0625));
        assertThat(even.meanSquares().outfitZ()).isZero();
        assertThat(even.meanSquares().infitZ()).isZero();
    }

    @Test
    void separationIsThatOfTheFormulas() {
        // variance 1, mean squared error 0.2: R 0.8, separation 2, strata 3
        Separation s = Separation.of(
                        new double[] {-1, 0, 1}, new double[] {Math.sqrt(.1), Math.sqrt(.2), Math.sqrt(.3)})
                .orElseThrow();
        assertThat(s.n()).isEqualTo(3);
        assertThat(s.sd()).isCloseTo(1, within(1e-12));
        assertThat(s.error()).isCloseTo(Math.sqrt(.2), within(1e-12));
        assertThat(s.reliability()).isCloseTo(.8, within(1e-12));
        assertThat(s.separation()).isCloseTo(2, within(1e-12));
        assertThat(s.strata()).isCloseTo(3, within(1e-12));
        Separation none =
                Separation.of(new double[] {0, .1}, new double[] {1, 1}).orElseThrow();
        assertThat(none.reliability()).isZero();
        assertThat(none.strata()).isCloseTo(1 / 3.0, within(1e-12));
        assertThat(reason(Separation.of(new double[] {1}, new double[] {1}))).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(Separation.of(new double[] {1, 1}, new double[] {1, 1})))
                .isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThatThrownBy(() -> Separation.of(new double[] {1, 2}, new double[] {1}))
                .hasMessage("2 measures, 1 errors");
    }

    private static Refusal.Reason reason(Outcome<?> outcome) {
        return ((Outcome.Refused<?>) outcome).refusal().reason();
    }

    /** Some marks that vary. */
    static RaschData base(int trainees, int assessors, int items, int levels, long seed) {
        Random random = new Random(seed);
        RaschData data = new RaschData();
        for (int t = 0; t < trainees; t++) {
            double ability = random.nextGaussian();
            for (int a = 0; a < assessors; a++) {
                for (int i = 0; i < items; i++) {
                    double x = ability - .3 * a + .3 * i + 1.3 * random.nextGaussian();
                    int level = (int) Math.round(levels / 2.0 + x);
                    data.add("T" + t, "A" + a, "I" + i, Math.max(1, Math.min(levels, level)));
                }
            }
        }
        return data;
    }

    @ParameterizedTest
    @EnumSource(StepModel.class)
    void anAssessorWhoGaveOnlyTopMarksIsSetAsideAndNamed(StepModel model) {
        RaschData data = base(12, 2, 3, 4, 5);
        ManyFacetRasch without = fit(data, model);
        for (int t = 0; t < 6; t++) {
            data.add("T" + t, "A9", "I1", 4).add("T" + t, "A8", "I0", 1);
        }
        ManyFacetRasch fit = fit(data, model);
        Measure lenient = RaschData.find(fit.assessors(), "A9");
        Measure harsh = RaschData.find(fit.assessors(), "A8");
        assertThat(lenient.extreme()).isEqualTo(Extreme.ALL_TOP);
        assertThat(harsh.extreme()).isEqualTo(Extreme.ALL_BOTTOM);
        assertThat(lenient.fit()).isNull();
        assertThat(lenient.n()).isEqualTo(6);
        assertThat(fit.warnings())
                .anySatisfy(w -> assertThat(w)
                        .startsWith("Assessor A9 has only top marks among those that can be compared; the measure is at"
                                + " most about"))
                .anySatisfy(w -> assertThat(w)
                        .startsWith("Assessor A8 has only bottom marks among those that can be compared; the measure is"
                                + " at least about"));
        // the others are as without them
        assertThat(RaschData.find(fit.assessors(), "A0").logits().value())
                .isCloseTo(RaschData.find(without.assessors(), "A0").logits().value(), within(1e-9));
        assertThat(fit.used()).isEqualTo(without.used());
        // Warm's equation of the lenient one, written out
        Markings marks = data.marks();
        UsableMarks usable = UsableMarks.of(marks, model);
        Parameters parameters = Parameters.of(usable);
        ConditionalFit inner =
                ConditionalFit.of(usable, parameters, Estimation.CONDITIONAL).orElseThrow();
        int item = marks.items().levels().indexOf("I1");
        double expected = 0;
        double information = 0;
        double third = 0;
        for (int t = 0; t < 6; t++) {
            double ability = RaschData.find(fit.trainees(), "T" + t).logits().value();
            MarkCurve.Moments m = parameters
                    .curve(
                            inner.values(),
                            item,
                            lenient.logits().value(),
                            inner.values()[parameters.items()[item]])
                    .moments(ability);
            expected += m.mean();
            information += m.variance();
            third += m.third();
        }
        int top = usable.categories().get(item).top();
        assertThat(6 * top - expected + third / (2 * information)).isCloseTo(0, within(1e-8));
        assertThat(lenient.logits().se()).isCloseTo(1 / Math.sqrt(information), within(1e-8));
        assertThat(lenient.logits().value()).isLessThan(-1);
        assertThat(harsh.logits().value()).isGreaterThan(1);
    }

    @Test
    void extremeTraineesAndItemsAreFiniteAndNamed() {
        RaschData data = base(12, 2, 3, 4, 5);
        for (int a = 0; a < 2; a++) {
            for (int i = 0; i < 3; i++) {
                data.add("TOP", "A" + a, "I" + i, 4).add("LOW", "A" + a, "I" + i, 1);
            }
        }
        for (int t = 0; t < 12; t++) {
            data.add("T" + t, "A0", "EASY", 4);
        }
        ManyFacetRasch fit = fit(data, StepModel.RATING_SCALE);
        Measure top = RaschData.find(fit.trainees(), "TOP");
        Measure low = RaschData.find(fit.trainees(), "LOW");
        assertThat(top.extreme()).isEqualTo(Extreme.ALL_TOP);
        assertThat(low.extreme()).isEqualTo(Extreme.ALL_BOTTOM);
        assertThat(top.logits().value()).isBetween(2.0, 6.0);
        assertThat(low.logits().value()).isBetween(-6.0, -2.0);
        assertThat(top.logits().se()).isGreaterThan(.9);
        assertThat(top.fit()).isNull();
        assertThat(top.fairAverage().value()).isBetween(3.5, 4.0);
        Measure easy = RaschData.find(fit.items(), "EASY");
        assertThat(easy.extreme()).isEqualTo(Extreme.ALL_TOP);
        assertThat(easy.logits().value()).isLessThan(-2);
        assertThat(easy.fairAverage().value()).isBetween(3.5, 4.0);
        assertThat(fit.warnings())
                .anySatisfy(w -> assertThat(w)
                        .startsWith("Trainee TOP has only top marks")
                        .contains("is at least"))
                .anySatisfy(w -> assertThat(w)
                        .startsWith("Trainee LOW has only bottom marks")
                        .contains("is at most"))
                .anySatisfy(w ->
                        assertThat(w).startsWith("Item EASY has only top marks").contains("is at most"));
        // extreme trainees take no part in the mean and the separation
        assertThat(fit.traineeSeparation().n()).isEqualTo((int)
                fit.trainees().stream().filter(m -> m.extreme() == Extreme.NONE).count());
        assertThat(fit.traineeSeparation().n()).isEqualTo(10);
        assertThat(fit.itemSeparation().n()).isEqualTo(3);
        ManyFacetRasch own = fit(data, StepModel.PARTIAL_CREDIT);
        assertThat(RaschData.find(own.items(), "EASY").extreme()).isEqualTo(Extreme.CONSTANT);
        assertThat(RaschData.find(own.items(), "EASY").logits()).isNull();
        assertThat(RaschData.find(own.items(), "EASY").fairAverage()).isNull();
        assertThat(own.warnings())
                .contains(
                        "Item EASY cannot be measured: its marks that can be compared were all the same, and nothing else places it.");
        assertThat(own.steps()).extracting(Step::item).doesNotContain("EASY");
    }

    @Test
    void traineesOfAnExtremeAssessorOnlyAreMeasuredByThatOne() {
        RaschData data = base(12, 2, 3, 4, 5);
        for (int i = 0; i < 3; i++) {
            data.add("T1", "A9", "I" + i, 4).add("T3", "A9", "I" + i, 4).add("NEW", "A9", "I" + i, 4);
        }
        data.add("LONE", "A7", "I1", 4);
        ManyFacetRasch fit = fit(data, StepModel.RATING_SCALE);
        Measure lenient = RaschData.find(fit.assessors(), "A9");
        Measure fresh = RaschData.find(fit.trainees(), "NEW");
        assertThat(fresh.extreme()).isEqualTo(Extreme.INDIRECT);
        assertThat(fresh.logits().value()).isFinite();
        assertThat(fit.warnings())
                .contains(
                        "Trainee NEW met only those with only top or only bottom marks; the measure is a rough one.",
                        "Trainee LONE cannot be measured: all its marks are by or of those with only top or only bottom"
                                + " marks.");
        assertThat(lenient.logits().value()).isLessThan(0);
        // an assessor whose one trainee met no other tells nothing
        assertThat(RaschData.find(fit.assessors(), "A7").logits()).isNull();
        assertThat(RaschData.find(fit.trainees(), "LONE").logits()).isNull();
        assertThat(fit.warnings())
                .contains(
                        "Assessor A7 cannot be measured: its marks that can be compared were all the same, and nothing else places it.");
    }

    @Test
    void anUnusedMiddleLevelIsNamedAndKeepsItsPlace() {
        RaschData data = new RaschData();
        Markings marks = base(20, 3, 3, 5, 7).marks();
        for (int row = 0; row < marks.size(); row++) {
            int level = marks.levels()[row] == 4 ? 3 : marks.levels()[row];
            data.add(
                    "T" + marks.trainee(row),
                    "A" + marks.assessor(row),
                    "I" + marks.item(row),
                    // item 0 goes from 2 to 6, without 5
                    level + 1);
        }
        ManyFacetRasch fit = fit(data, StepModel.RATING_SCALE);
        assertThat(fit.warnings())
                .contains("Level 5 was never given by those who enter the estimation; the model takes it as impossible"
                        + " there.");
        assertThat(fit.steps()).extracting(Step::to).containsExactly(3, 4, 6);
        assertThat(fit.steps()).extracting(Step::from).containsExactly(2, 3, 4);
        // deviations weigh by the levels that they climb
        assertThat(fit.steps().get(0).deviation().value()
                        + fit.steps().get(1).deviation().value()
                        + 2 * fit.steps().get(2).deviation().value())
                .isCloseTo(0, within(1e-9));
        assertThat(fit.steps().get(2).n()).isEqualTo((int)
                Arrays.stream(data.marks().levels()).filter(l -> l == 6).count());
        ManyFacetRasch own = fit(data, StepModel.PARTIAL_CREDIT);
        assertThat(own.warnings())
                .contains("Level 5 was never given on item I1 by those who enter the estimation; the model takes it as"
                        + " impossible there.");
        Categories c = UsableMarks.of(data.marks(), StepModel.RATING_SCALE)
                .categories()
                .get(0);
        assertThat(c.unused()).containsExactly(5);
        assertThat(c.category(5)).isEqualTo(2);
        assertThat(c.category(1)).isZero();
        assertThat(c.category(9)).isEqualTo(3);
        assertThat(c.level(1.5)).isEqualTo(3.5);
    }

    @Test
    void aLevelThatOnlyATopTraineeGotIsJoinedToTheNext() {
        RaschData data = base(12, 2, 3, 3, 9);
        for (int a = 0; a < 2; a++) {
            for (int i = 0; i < 3; i++) {
                data.add("TOP", "A" + a, "I" + i, 4);
            }
        }
        ManyFacetRasch fit = fit(data, StepModel.RATING_SCALE);
        assertThat(fit.highest()).isEqualTo(4);
        assertThat(fit.steps()).extracting(Step::to).containsExactly(2, 3);
        assertThat(RaschData.find(fit.trainees(), "TOP").extreme()).isEqualTo(Extreme.ALL_TOP);
        assertThat(fit.warnings())
                .contains(
                        "Level 4 was given only with top or bottom marks throughout; it is counted as the nearest level"
                                + " that has a step.");
        assertThat(fit(data, StepModel.PARTIAL_CREDIT).warnings())
                .contains("Level 4 on item I0, 4 on item I1, 4 on item I2 was given only with top or bottom marks"
                        + " throughout; it is counted as the nearest level that has a step.");
    }

    @Test
    void groupsThatShareNobodyAreNamed() {
        RaschData data = new RaschData();
        Random random = new Random(3);
        for (int t = 0; t < 20; t++) {
            for (int a = 0; a < 2; a++) {
                for (int i = 0; i < 3; i++) {
                    data.add("T" + t, (t < 10 ? "A" : "B") + a, "I" + i, 1 + random.nextInt(4));
                }
            }
        }
        Refusal refusal = refusal(data, StepModel.RATING_SCALE);
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.NOT_CONNECTED);
        assertThat(refusal.why())
                .isEqualTo("the marks fall into 2 groups that share no trainee and no assessor: trainee T0, T1, T2, T3,"
                        + " T4, T5, T6, T7, T8, T9 with assessor A0, A1; trainee T10, T11, T12, T13, T14, T15, T16,"
                        + " T17, T18, T19 with assessor B0, B1");
        // one shared trainee ties them
        for (int i = 0; i < 3; i++) {
            data.add("T1", "B0", "I" + i, 1 + i);
        }
        assertThat(fit(data, StepModel.RATING_SCALE).assessors()).hasSize(4);
    }

    @Test
    void longListsOfNamesAreCutAndExtremeMarksDoNotTie() {
        RaschData data = new RaschData();
        Random random = new Random(3);
        for (int t = 0; t < 30; t++) {
            for (int i = 0; i < 3; i++) {
                data.add("T" + t, t < 15 ? "A" : "B", "I" + i, 1 + random.nextInt(4));
            }
        }
        for (int i = 0; i < 3; i++) {
            data.add("TOP", "A", "I" + i, 4).add("TOP", "B", "I" + i, 4);
        }
        assertThat(refusal(data, StepModel.RATING_SCALE).why())
                .contains("T11 and 3 more with assessor A;")
                .endsWith("(6 marks of those with only top or only bottom marks do not tie)");
    }

    @Test
    void assessorsWithItemsOfTheirOwnCannotBeToldFromThem() {
        RaschData data = new RaschData();
        Random random = new Random(3);
        for (int t = 0; t < 12; t++) {
            data.add("T" + t, "A1", "I1", 1 + random.nextInt(3)).add("T" + t, "A2", "I2", 1 + random.nextInt(3));
        }
        assertThat(refusal(data, StepModel.RATING_SCALE).why())
                .startsWith(
                        "the marks fall into 2 groups that share no assessor and no item: assessor A1 with item I1;");
    }

    /** Each two facets hang together, and yet: who marks I1 and I2 goes with the half of the trainees. */
    @Test
    void closerConfoundingIsFoundByRank() {
        RaschData data = new RaschData();
        Random random = new Random(4);
        for (int t = 0; t < 12; t++) {
            boolean half = t % 2 == 0;
            // A1 and A2 always mark different items of the same trainee, so that A1 − A2 goes with I1 − I2
            data.add("T" + t, half ? "A1" : "A2", "I1", 1 + random.nextInt(3));
            data.add("T" + t, half ? "A1" : "A2", "I3", 1 + random.nextInt(3));
        }
        data.add("X", "A1", "I1", 2).add("X", "A2", "I2", 1);
        data.add("Y", "A1", "I1", 1).add("Y", "A2", "I2", 3).add("Y", "A2", "I2", 2);
        Refusal refusal = refusal(data, StepModel.RATING_SCALE);
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.NOT_CONNECTED);
        assertThat(refusal.why())
                .startsWith(
                        "assessors and items cannot be told apart, because who marked what goes together too closely;"
                                + " only within these groups can they be compared: assessor A1; assessor A2; item I1, I3; item"
                                + " I2");
    }

    @Test
    void whatCannotBeEstimatedIsRefused() {
        assertThat(refusal(new RaschData(), StepModel.RATING_SCALE).why()).isEqualTo("there are no marks");
        RaschData same = new RaschData().add("T1", "A1", "I1", 3).add("T2", "A1", "I1", 3);
        assertThat(refusal(same, StepModel.RATING_SCALE).reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(refusal(same, StepModel.RATING_SCALE).why()).isEqualTo("all 2 marks are 3");
        RaschData one = new RaschData()
                .add("T1", "A1", "I1", 3)
                .add("T1", "A1", "I2", 2)
                .add("T1", "A2", "I1", 2)
                .add("T1", "A2", "I2", 3);
        assertThat(refusal(one, StepModel.RATING_SCALE).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(refusal(one, StepModel.RATING_SCALE).why())
                .startsWith("only 1 of 1 trainees have marks that differ");
        // Guttman pattern: each trainee passes what is easier
        RaschData guttman = new RaschData();
        for (int t = 0; t < 3; t++) {
            for (int i = 0; i < 4; i++) {
                guttman.add("T" + t, "A1", "I" + i, i <= t ? 1 : 0);
            }
        }
        assertThat(refusal(guttman, StepModel.RATING_SCALE).reason())
                .isIn(Refusal.Reason.SEPARATED, Refusal.Reason.TOO_FEW);
        RaschData wide = base(8, 2, 2, 4, 1);
        wide.add("T0", "A0", "I0", 53).add("T0", "A0", "I1", 0);
        assertThat(refusal(wide, StepModel.RATING_SCALE).reason()).isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        assertThat(refusal(wide, StepModel.RATING_SCALE).why())
                .isEqualTo("levels from 0 to 53 are 53 points apart, and levels are 50 at most");
        assertThatThrownBy(() -> ManyFacetRasch.fit(one.marks(), StepModel.RATING_SCALE, Estimation.CONDITIONAL, 1))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> ManyFacetRasch.fit(one.marks(), StepModel.RATING_SCALE, Estimation.CONDITIONAL, 0))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Markings(
                        Factor.of("trainee", List.of("T1")),
                        Factor.of("assessor", List.of("A1", "A2")),
                        Factor.of("item", List.of("I1")),
                        new int[] {1}))
                .hasMessage("assessor has 2 codes for 1 marks");
    }

    @Test
    void separatedAssessorsAreNamed() {
        // A2 never above A1 on the same trainee; no marks at the ends throughout
        RaschData data = new RaschData();
        int[][] pairs = {{3, 1}, {2, 1}, {3, 2}, {4, 2}, {4, 3}, {3, 2}, {4, 1}, {3, 1}};
        for (int t = 0; t < 8; t++) {
            data.add("T" + t, "A1", "I1", pairs[t][0]).add("T" + t, "A2", "I1", pairs[t][1]);
        }
        Refusal refusal = refusal(data, StepModel.RATING_SCALE);
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.SEPARATED);
        assertThat(refusal.why()).contains("assessor A1, assessor A2");
    }

    @Test
    void stepsThatNoSumTellsAreRefused() {
        // sums 3 and 5 each allow one set of levels only
        RaschData data = new RaschData();
        for (int t = 0; t < 10; t++) {
            int level = 2 + t % 2;
            data.add("T" + t, t < 6 ? "A1" : "A2", "I1", level).add("T" + t, t < 6 ? "A2" : "A1", "I1", level - 1);
        }
        Refusal refusal = refusal(data, StepModel.RATING_SCALE);
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        assertThat(refusal.why()).startsWith("given the trainees' sums, the marks tell nothing of some severities");
    }

    /** Cox & Snell's correction for the log odds of a binomial: the estimate less (p − q)/(2 n p q), by hand. */
    @Test
    void theBiasOfTheLogOddsIsTakenOff() {
        RaschData data = twoItems(12, 5, 0, 0);
        ManyFacetRasch fit = ManyFacetRasch.fit(data.marks(), StepModel.RATING_SCALE, Estimation.BIAS_REDUCED, 0.95)
                .orElseThrow();
        double p = 12 / 17.0;
        double q = 5 / 17.0;
        double expected = Math.log(12 / 5.0) - (p - q) / (2 * 17 * p * q);
        assertThat(fit.items().get(1).logits().value()
                        - fit.items().get(0).logits().value())
                .isCloseTo(expected, within(1e-6));
        double chance = 1 / (1 + Math.exp(-expected));
        assertThat(fit.items().get(0).logits().se())
                .isCloseTo(1 / Math.sqrt(17 * chance * (1 - chance)) / 2, within(1e-6));
        assertThat(fit.items().get(0).logits().method()).isEqualTo("conditional maximum likelihood, bias reduced");
        assertThat(fit.estimation()).isEqualTo(Estimation.BIAS_REDUCED);
    }

    @Test
    void anErraticAssessorIsNamedAndAUniformOneToo() {
        RaschData data = base(25, 3, 5, 4, 11);
        Random random = new Random(2);
        for (int t = 0; t < 25; t++) {
            for (int i = 0; i < 5; i++) {
                data.add("T" + t, "WILD", "I" + i, random.nextBoolean() ? 1 : 4);
                data.add("T" + t, "FLAT", "I" + i, 2 + (t + i == 7 || t + i == 12 ? 1 : 0));
            }
        }
        ManyFacetRasch fit = fit(data, StepModel.RATING_SCALE);
        assertThat(RaschData.find(fit.assessors(), "WILD").fit().infit()).isGreaterThan(1.5);
        assertThat(RaschData.find(fit.assessors(), "FLAT").fit().infit()).isLessThan(.5);
        assertThat(fit.warnings())
                .anySatisfy(w -> assertThat(w)
                        .startsWith("The marks of assessor WILD are more erratic than the model expects (infit "))
                .anySatisfy(w -> assertThat(w)
                        .startsWith("The marks of assessor FLAT are more alike than the model expects (infit "))
                .noneSatisfy(w -> assertThat(w).contains("assessor A0"))
                .noneSatisfy(w -> assertThat(w).startsWith("Only"))
                .noneSatisfy(w -> assertThat(w).contains("repeat"));
        assertThat(fit.assessorsAlike().df()).isEqualTo(4);
    }

    @Test
    void repeatsFewTraineesAndDisorderedStepsAreSaid() {
        RaschData data = new RaschData();
        Random random = new Random(6);
        for (int t = 0; t < 8; t++) {
            for (int i = 0; i < 4; i++) {
                for (int repeat = 0; repeat < 2; repeat++) {
                    // level 2 is rare
                    int level = random.nextInt(9) == 0 ? 2 : random.nextBoolean() ? 1 : 3;
                    data.add("T" + t, "A" + t % 2, "I" + i, level).add("T" + t, "A2", "I" + i, 4 - level);
                }
            }
        }
        ManyFacetRasch fit = fit(data, StepModel.RATING_SCALE);
        assertThat(fit.steps().get(0).deviation().value())
                .isGreaterThan(fit.steps().get(1).deviation().value());
        assertThat(fit.warnings())
                .contains(
                        "Only 8 trainees tell the assessors apart; the limits are rough and rather too narrow.",
                        "64 of 128 marks repeat a trainee, assessor and item; they are taken as independent, and if"
                                + " operations differ in difficulty the standard errors are too small.",
                        "Level 2 is nowhere the most likely one (its step is harder than the next); its descriptor may"
                                + " not be clear, or it was rarely given.");
        ManyFacetRasch own = fit(data, StepModel.PARTIAL_CREDIT);
        assertThat(own.warnings())
                .anySatisfy(w -> assertThat(w).startsWith("Level 2 is nowhere the most likely one on" + " item I"));
    }

    /** Standard errors of trainees: chance, and the structure by moving each parameter a little. */
    @ParameterizedTest
    @EnumSource(StepModel.class)
    void standardErrorsOfTraineesHoldTheUncertaintyOfTheStructure(StepModel model) {
        RaschData data = base(12, 3, 3, 4, 13);
        Markings marks = data.marks();
        ManyFacetRasch fit = fit(data, model);
        UsableMarks usable = UsableMarks.of(marks, model);
        Parameters parameters = Parameters.of(usable);
        ConditionalFit inner =
                ConditionalFit.of(usable, parameters, Estimation.CONDITIONAL).orElseThrow();
        for (int t = 0; t < 3; t++) {
            double ability = fit.trainees().get(t).logits().value();
            double information = 0;
            double[] slope = new double[parameters.size()];
            for (int row = 0; row < marks.size(); row++) {
                if (marks.trainee(row) == t) {
                    information += parameters
                            .curve(inner.values(), marks.assessor(row), marks.item(row))
                            .moments(ability)
                            .variance();
                    for (int p = 0; p < slope.length; p++) {
                        for (int sign = -1; sign <= 1; sign += 2) {
                            double[] moved = inner.values().clone();
                            moved[p] += sign * 1e-5;
                            slope[p] -= sign
                                    * parameters
                                            .curve(moved, marks.assessor(row), marks.item(row))
                                            .mean(ability)
                                    / 2e-5;
                        }
                    }
                }
            }
            double structure = 0;
            for (int p = 0; p < slope.length; p++) {
                for (int q = 0; q < slope.length; q++) {
                    structure += slope[p] * slope[q] * inner.covariance().getEntry(p, q);
                }
            }
            assertThat(structure).isGreaterThan(0);
            assertThat(fit.trainees().get(t).logits().se())
                    .isCloseTo(Math.sqrt(1 / information + structure / (information * information)), within(1e-7));
        }
    }

    /** Expected levels written out. */
    @ParameterizedTest
    @EnumSource(StepModel.class)
    void fairAveragesAreExpectedLevelsWithTheOthersAtTheirMean(StepModel model) {
        RaschData data = base(15, 3, 3, 4, 17);
        ManyFacetRasch fit = fit(data, model);
        double mean = fit.trainees().stream()
                .mapToDouble(m -> m.logits().value())
                .average()
                .orElseThrow();
        assertThat(fit.trainees()).allMatch(m -> m.extreme() == Extreme.NONE);
        for (Measure assessor : fit.assessors()) {
            double expected = 0;
            for (Measure item : fit.items()) {
                double difficulty =
                        model == StepModel.RATING_SCALE ? 0 : item.logits().value();
                expected += level(fit, item.label(), mean - assessor.logits().value() - difficulty) / 3;
            }
            assertThat(assessor.fairAverage().value()).isCloseTo(expected, within(1e-9));
        }
        for (Measure item : fit.items()) {
            assertThat(item.fairAverage().value())
                    .isCloseTo(level(fit, item.label(), mean - item.logits().value()), within(1e-9));
        }
    }

    private static double level(ManyFacetRasch fit, String item, double standing) {
        double weight = 1;
        double sum = 1;
        double levels = 0;
        int first = 0;
        boolean started = false;
        for (Step step : fit.steps()) {
            if (step.item().equals("all") || step.item().equals(item)) {
                if (!started) {
                    first = step.from();
                    levels = first;
                    started = true;
                }
                weight *= Math.exp(standing - step.deviation().value());
                sum += weight;
                levels += weight * step.to();
            }
        }
        return levels / sum;
    }
}
