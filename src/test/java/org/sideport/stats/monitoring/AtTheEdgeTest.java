package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.stats.Outcome;

/** Values that lie exactly on a limit, and parameters at the end of their range; all by hand. */
class AtTheEdgeTest {

    @Test
    void atTheLimitOfACusumIsASignal() {
        // 1.5 − .5 = 1 = h, either side
        CusumDesign design = new CusumDesign(.5, 1, 0);
        Baseline baseline = Baseline.given(0, 1);
        assertThat(design.chart(ValueSeries.of(1.5), baseline, Restart.STOP).signals())
                .singleElement()
                .satisfies(point -> assertThat(point.signal()).isEqualTo(SignalKind.HIGH));
        assertThat(design.chart(ValueSeries.of(-1.5), baseline, Restart.STOP).signals())
                .singleElement()
                .satisfies(point -> assertThat(point.signal()).isEqualTo(SignalKind.LOW));
        assertThat(design.chart(ValueSeries.of(1.4999), baseline, Restart.STOP).signals())
                .isEmpty();
    }

    @Test
    void atTheLimitOfAnEwmaIsNone() {
        EwmaDesign design = new EwmaDesign(1, 3, true);
        Baseline baseline = Baseline.given(0, 2);
        assertThat(design.chart(ValueSeries.of(6, -6), baseline).signals()).isEmpty();
        assertThat(design.chart(ValueSeries.of(6.001, -6.001), baseline).points().stream()
                        .map(ChartPoint::signal))
                .containsExactly(SignalKind.HIGH, SignalKind.LOW);
        assertThat(design.chart(ValueSeries.of(6), baseline).points().get(0).lower())
                .isEqualTo(-6);
    }

    @Test
    void stepOfExactlyTheLimitOfRangesIsNone() {
        double limit = IndividualsChart.D4 * Baseline.D2;
        ValueChart chart =
                IndividualsChart.of(ValueSeries.of(0, limit, 0, limit * 1.0001), Baseline.given(0, 1), Set.of());
        assertThat(chart.otherPoints().stream().map(ChartPoint::signal)).containsExactly(null, null, SignalKind.HIGH);
    }

    @Test
    void shortestHorizon() {
        // one failure of one case, probability .1 = α: limit ln(2/1.1)
        LimitFinder.HorizonLimit found = LimitFinder.forHorizon(new LlrDesign(2, 1, .1), .1, 1, .1);
        assertThat(found.limit()).isCloseTo(Math.log(2 / 1.1), within(1e-12));
        assertThat(found.falseSignals()).isCloseTo(.1, within(1e-15));
        assertThat(found.quantile()).isZero();
        assertThat(found.reaching()).isEqualTo(1);
        assertThatThrownBy(() -> LimitFinder.forHorizon(new LlrDesign(2, 1, .1), .1, 1, .0999))
                .hasMessageContaining("even the highest value");
        // two cases, k = ½: ½ is reached with .19, 1 with .01
        TabularDesign half = new TabularDesign(.5, 1, .1, .9);
        assertThat(LimitFinder.forHorizon(half, .1, 2, .2).limit()).isCloseTo(.5, within(1e-12));
        LimitFinder.HorizonLimit two = LimitFinder.forHorizon(half, .1, 2, .05);
        assertThat(two.limit()).isCloseTo(1, within(1e-12));
        assertThat(two.falseSignals()).isCloseTo(.01, within(1e-12));
        assertThat(two.quantile()).isCloseTo(.5, within(1e-12));
        assertThat(two.reaching()).isCloseTo(.19, within(1e-12));
        // three cases, k = .3: the values .1, .4 and .7 of one failure are reached unless there is none: 1 − .9³ = .271
        TabularDesign third = new TabularDesign(.3, 1, .1, .9);
        assertThat(LimitFinder.forHorizon(third, .1, 3, .28).limit()).isCloseTo(.1, within(1e-12));
        // beyond .7 lies .7 − .3 + .7 = 1.1, then 1.4 and 2.1
        assertThat(LimitFinder.forHorizon(third, .1, 3, .27).limit()).isCloseTo(1.1, within(1e-12));
        // two failures of three: 3 × .01 × .9 + .001 = .028; two in turn (1.4): .028 − .009 = .019; three (2.1): .001
        assertThat(LimitFinder.forHorizon(third, .1, 3, .27).falseSignals()).isCloseTo(.028, within(1e-12));
        assertThat(LimitFinder.forHorizon(third, .1, 3, .025).falseSignals()).isCloseTo(.019, within(1e-12));
        assertThat(LimitFinder.forHorizon(third, .1, 3, .015).limit()).isCloseTo(2.1, within(1e-12));
    }

    @Test
    void limitsOfRunLengthsThatFollowByHand() {
        // k = ½: up to h = ½ the first failure signals, 1/p = 10 cases; beyond it, two more failures than successes:
        // the walk +½ or −½ held at 0, mean to reach two units 1/p² + 1/p = 110 with p = .1
        TabularDesign half = new TabularDesign(.5, 1, .1, .9);
        assertThat(LimitFinder.forRunLength(half, .1, 10)).isCloseTo(.5, within(1e-12));
        assertThat(LimitFinder.forRunLength(half, .1, 10.01)).isCloseTo(1, within(1e-12));
        assertThat(LimitFinder.forRunLength(half, .1, 109.9)).isCloseTo(1, within(1e-12));
        assertThat(LimitFinder.forRunLength(half, .1, 110.1)).isCloseTo(1.5, within(1e-12));
        assertThat(LimitFinder.forRunLength(half, .1, 1.5)).isCloseTo(.5, within(1e-12));
        assertThatThrownBy(() -> LimitFinder.forRunLength(half, .1, 1)).hasMessageContaining("1.0 cannot be met");
        assertThatThrownBy(() -> LimitFinder.forRunLength(half, .1, 1.1e7)).hasMessageContaining("cannot be met");
        assertThat(BinaryRunLength.of(LimitFinder.withLimit(half, 1), .1).arl()).isCloseTo(110, within(1e-7));
    }

    @Test
    void designsKnowTheirRates() {
        TabularDesign tabular = new TabularDesign(.1, 2, .05, .15);
        assertThat(tabular.acceptableRate()).isEqualTo(.05);
        assertThat(tabular.otherRate()).isEqualTo(.15);
        assertThat(tabular.falseSignalRate()).isEqualTo(.05);
        LearningCurveDesign learning = new LearningCurveDesign(.05, .15, 1.5);
        assertThat(learning.acceptableRate()).isEqualTo(.05);
        assertThat(learning.otherRate()).isEqualTo(.15);
        assertThat(learning.adjustsRisk()).isFalse();
        SprtDesign sequential = new SprtDesign(.05, .1, .1, .1);
        assertThat(sequential.acceptableRate()).isEqualTo(.05);
        assertThat(sequential.otherRate()).isEqualTo(.1);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 1, -.1, 1.1, Double.NaN})
    void risksLieBetweenNoneAndAll(double risk) {
        assertThatThrownBy(() -> new RiskMix(List.of(risk), List.of(1.0))).hasMessageContaining("risk");
        assertThat(BinarySeries.of(new long[] {1}, Arrays.asList(true), Arrays.asList(risk)))
                .isInstanceOf(Outcome.Refused.class);
    }

    @Test
    void sharesAreAboveNoneAndAddUp() {
        assertThatThrownBy(() -> new RiskMix(List.of(.1, .2), List.of(0.0, 1.0)))
                .hasMessageContaining("share");
        assertThatThrownBy(() -> new RiskMix(List.of(.1, .2), List.of(.5, .4))).hasMessageContaining("add up");
        assertThatThrownBy(() -> new RiskMix(List.of(.1), List.of(.5, .5))).hasMessageContaining("1 risks, 2 shares");
        assertThatThrownBy(() -> new RiskMix(List.of(), List.of())).hasMessageContaining("0 risks");
    }

    @Test
    void unequalErrorsOverAMixOfOneRiskComeNearTheExactOnes() {
        SprtDesign design = new SprtDesign(.05, .15, .05, .2);
        for (double rate : new double[] {.05, .10}) {
            double odds = rate * .95 / (.05 * (1 - rate));
            SprtRunLength exact = SprtRunLength.of(design, rate);
            SprtRunLength grid = SprtRunLength.of(design, new RiskMix(List.of(.05), List.of(1.0)), odds);
            assertThat(grid.cases()).isCloseTo(exact.cases(), Percentage.withPercentage(2));
            assertThat(grid.accepts()).isCloseTo(exact.accepts(), within(.01));
            assertThat(grid.accepts() + grid.alarms()).isCloseTo(1, within(1e-9));
        }
    }

    @Test
    void headStartOfBothSidesAfterAShift() {
        // R spc 0.6.7, src/test/oracle/monitoring: two-sided, k = .5, h = 4, head start 2, shift 1: 5.2868862
        CusumDesign design = new CusumDesign(.5, 4, 2);
        assertThat(ValueRunLength.of(design, 1).arl()).isCloseTo(5.2868862, within(1e-6));
        assertThat(ValueRunLength.of(design, -1).arl()).isCloseTo(5.2868862, within(1e-6));
    }

    @Test
    void statesOfRunRulesByHand() {
        // 3 SD alone remember nothing; eight on one side: the start and 1 to 7 in a row on either side
        assertThat(ValueRunLength.individuals(Set.of(), 0).method()).contains(" 1 states");
        assertThat(ValueRunLength.individuals(Set.of(RunRule.EIGHT_ON_ONE_SIDE), 0)
                        .method())
                .contains(" 15 states");
        // eight heads or tails in a row, the first free: 2⁸ − 1 = 255 tosses on average
        assertThat(ValueRunLength.individuals(Set.of(RunRule.EIGHT_ON_ONE_SIDE), 0)
                        .arl())
                .isCloseTo(255, within(1e-6));
    }

    @Test
    void lineReachedWhenFallingCountsAsPassed() {
        // p0 = .25, p1 = .75, errors .1: OR 9, s = ½, h0 = h1 = ln 9/ln 9 = 1, so that the lines lie at whole numbers
        SprtDesign design = new SprtDesign(.25, .75, .1, .1);
        assertThat(design.s()).isCloseTo(.5, within(1e-12));
        assertThat(design.h1()).isCloseTo(1, within(1e-12));
        // up to 2, down to 1.5 (line 2 passed) and exactly to 1 (line 1 reached): two lines that follow each other
        SprtVerdict verdict = SprtVerdict.of(design, BinarySeries.of(true, true, true, true, false, false, false));
        assertThat(verdict.twoLinesAt()).isEqualTo(6);
        assertThat(verdict.twoLinesStatistic()).isCloseTo(1, within(1e-12));
        assertThat(verdict.alarmAt()).isEqualTo(2);
        // down to −1 and −2: accepted at 2 by one convention, at 4 by the other
        SprtVerdict down = SprtVerdict.of(design, BinarySeries.of(false, false, false, false));
        assertThat(down.acceptedAt()).isEqualTo(2);
        assertThat(down.twoLinesAt()).isEqualTo(4);
        // rising exactly to line 1 is no fall
        assertThat(SprtVerdict.of(design, BinarySeries.of(true, true, false)).twoLinesAt())
                .isNull();
    }
}
