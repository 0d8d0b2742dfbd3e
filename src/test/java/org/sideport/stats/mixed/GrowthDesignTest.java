package org.sideport.stats.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.mixed.GrowthDesign.Time;

class GrowthDesignTest {

    private static final Factor FOUR = Factor.of("subject", List.of("T1", "T1", "T2", "T3"));

    @Test
    void aDurationIsModelledByItsLogOverDoublings() {
        MixedData data = new GrowthDesign(Time.LOG, true, true)
                .data(FOUR, new double[] {1, 2, 8, 32}, new double[] {1, Math.E, 100, 1}, List.of())
                .orElseThrow();
        assertThat(data.fixed()).extracting(Column::name).containsExactly("intercept", "log2_case_number");
        assertThat(data.random()).extracting(Column::name).containsExactly("intercept", "log2_case_number");
        assertThat(data.fixed().get(1).values()).containsExactly(new double[] {0, 1, 3, 5}, within(1e-12));
        assertThat(data.response()).containsExactly(new double[] {0, 1, 2 * Math.log(10), 0}, within(1e-12));
    }

    @Test
    void aScoreIsTakenAsItIsOverTheCaseNumber() {
        Column grade = new Column("grade", new double[] {1, 2, 1, 3});
        double[] scores = {3, 4, 0, -1};
        MixedData data = new GrowthDesign(Time.LINEAR, false, false)
                .data(FOUR, new double[] {0, 2, 8, 32}, scores, List.of(grade))
                .orElseThrow();
        assertThat(data.fixed()).extracting(Column::name).containsExactly("intercept", "case_number", "grade");
        assertThat(data.random()).extracting(Column::name).containsExactly("intercept");
        assertThat(data.fixed().get(1).values()).containsExactly(0, 2, 8, 32);
        assertThat(data.response()).containsExactly(3, 4, 0, -1);
        scores[0] = 99;
        assertThat(data.response()[0]).isEqualTo(3);
    }

    @Test
    void whatHasNoLogarithmIsRefused() {
        Outcome<MixedData> zero = new GrowthDesign(Time.LINEAR, true, true)
                .data(FOUR, new double[] {1, 2, 1, 1}, new double[] {5, 0, 3, 2}, List.of());
        Refusal refusal = ((Outcome.Refused<MixedData>) zero).refusal();
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        assertThat(refusal.why()).contains("the smallest value is 0.0");
        Outcome<MixedData> early = new GrowthDesign(Time.LOG, false, true)
                .data(FOUR, new double[] {1, 2, 0.5, 1}, new double[] {5, 0, 3, 2}, List.of());
        assertThat(((Outcome.Refused<MixedData>) early).refusal().why()).contains("smallest case number is 0.5");
        assertThat(new GrowthDesign(Time.LOG, true, true)
                        .data(FOUR, new double[] {1, 2, 1, 1}, new double[] {5, 1, 3, 2}, List.of()))
                .isInstanceOf(Outcome.Found.class);
    }

    @Test
    void aCovariateOfNumbersIsANumberAndAnyOtherASetOfContrasts() {
        List<Column> grade = GrowthDesign.covariate(Factor.of("grade", List.of("2", "1.5", "2", "−1", "+.5")));
        assertThat(grade).hasSize(1);
        assertThat(grade.get(0).name()).isEqualTo("grade");
        assertThat(grade.get(0).values()).containsExactly(2, 1.5, 2, -1, .5);
        List<Column> pupil =
                GrowthDesign.covariate(Factor.of("pupil", List.of("small", "large", "medium", "small", "large")));
        assertThat(pupil).extracting(Column::name).containsExactly("pupil=medium", "pupil=small");
        assertThat(pupil.get(0).values()).containsExactly(0, 0, 1, 0, 0);
        assertThat(pupil.get(1).values()).containsExactly(1, 0, 0, 1, 0);
        List<Column> one = GrowthDesign.covariate(Factor.of("eye", List.of("R", "R")));
        assertThat(one).hasSize(1);
        assertThat(one.get(0).values()).containsExactly(1, 1);
    }

    /** sleepstudy by lme4, script src/test/oracle/mixed/mixed.R. */
    @Test
    void aCurveIsReadAtACase() {
        GrowthDesign design = new GrowthDesign(Time.LINEAR, false, true);
        MixedData raw = Reference.data("sleepstudy");
        GrowthCurve curve = design.data(raw.subject(), raw.fixed().get(1).values(), raw.response(), List.of())
                .flatMap(d -> MixedModel.fit(d, MixedOptions.standard()))
                .map(f -> new GrowthCurve(design, f))
                .orElseThrow();
        assertThat(curve.slope().estimate().value()).isCloseTo(10.4672860, within(5e-8));
        assertThat(curve.population(9).value()).isCloseTo(Reference.of("sleepstudy", "predict.9.fit"), within(1e-6));
        assertThat(curve.own("S309", 9).value()).isCloseTo(Reference.of("sleepstudy", "own.S309.fit"), within(1e-4));
        Estimate single = curve.ownObservation("S309", 9);
        assertThat(single.se()).isGreaterThan(25.59);
        assertThat(single.method()).startsWith("a new observation of the subject, ");
    }

    /** Orthodont by lme4: at the mean of the covariate the population's value is the sum of effects there. */
    @Test
    void covariatesAreHeldAtTheirMean() {
        GrowthDesign design = new GrowthDesign(Time.LINEAR, false, false);
        MixedData raw = Reference.data("orthodont");
        Column sex = raw.fixed().get(2);
        GrowthCurve curve = design.data(raw.subject(), raw.fixed().get(1).values(), raw.response(), List.of(sex))
                .flatMap(d -> MixedModel.fit(d, MixedOptions.standard()))
                .map(f -> new GrowthCurve(design, f))
                .orElseThrow();
        double share = java.util.Arrays.stream(sex.values()).sum() / sex.values().length;
        double expected = curve.fit().fixedEffect("intercept").estimate().value()
                + 11 * curve.slope().estimate().value()
                + share * curve.fit().fixedEffect("sexFemale").estimate().value();
        assertThat(curve.population(11).value()).isCloseTo(expected, within(1e-9));
        SubjectEffect first = curve.fit().subjectEffects().get(0);
        assertThat(curve.own(first.subject(), 11).value())
                .isCloseTo(expected + first.deviation("intercept").blup(), within(1e-9));
    }
}
