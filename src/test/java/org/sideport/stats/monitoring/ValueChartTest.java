package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Worked examples of the NIST/SEMATECH e-Handbook of Statistical Methods: 6.3.2.2 and 6.3.2.4 as in public copies of those
 * pages' tables, 6.3.2.3 from memory.
 */
class ValueChartTest {

    private static final ValueSeries FLOW = ValueSeries.of(49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1);

    private static double[] statistics(List<ChartPoint> points) {
        return points.stream().mapToDouble(ChartPoint::statistic).toArray();
    }

    private static List<Long> numbers(List<ChartPoint> points) {
        return points.stream().map(ChartPoint::caseNumber).toList();
    }

    @Test
    void individualsChartOfFlowRates() {
        // e-Handbook 6.3.2.2: mean 50.81, mean moving range 1.8778, limits 55.8041 and 45.8159, no point outside
        Baseline baseline = Baseline.ofFirst(FLOW, 10).orElseThrow();
        assertThat(baseline.mean()).isCloseTo(50.81, within(1e-9));
        assertThat(baseline.sd() * 1.128).isCloseTo(1.8778, within(5.001e-5));
        ValueChart chart = IndividualsChart.of(FLOW, baseline, Set.of());
        assertThat(chart.points().get(0).upper()).isCloseTo(55.8041, within(5.001e-5));
        assertThat(chart.points().get(0).lower()).isCloseTo(45.8159, within(5.001e-5));
        assertThat(chart.signals()).isEmpty();
        // moving ranges printed there: 2.0 2.3 1.4 3.5 3.4 1.4 0.2 1.2 1.5
        assertThat(statistics(chart.otherPoints()))
                .usingComparatorWithPrecision(1e-9)
                .containsExactly(2.0, 2.3, 1.4, 3.5, 3.4, 1.4, 0.2, 1.2, 1.5);
        assertThat(numbers(chart.otherPoints())).startsWith(2L).endsWith(10L);
        // D4 = 3.267 of the tables times the mean range
        assertThat(chart.otherPoints().get(0).upper()).isCloseTo(3.267 * 16.9 / 9, within(1e-9));
        assertThat(chart.otherPoints().get(0).lower()).isZero();
        assertThat(chart.baseline().cases()).isEqualTo(10);
        assertThat(chart.warnings()).singleElement().asString().contains("10 cases only");
    }

    @Test
    void cusumOfTwentyPoints() {
        // e-Handbook 6.3.2.3: target 325, k = .3175, h = 4.1959 in units of the data; upper and lower sums as printed
        ValueSeries series = ValueSeries.of(
                324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600, 324.625,
                325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350);
        ValueChart chart = new CusumDesign(.3175, 4.1959, 0).chart(series, Baseline.given(325, 1), Restart.CONTINUE);
        assertThat(statistics(chart.points()))
                .usingComparatorWithPrecision(.00501)
                .containsExactly(
                        0, 0, 0, 0, .03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.00, 19.04);
        assertThat(statistics(chart.otherPoints()))
                .usingComparatorWithPrecision(.00501)
                .containsExactly(0, .01, 0, .33, 0, 0, .56, .72, .17, .25, .31, 0, 0, 0, 0, 0, 0, 0, 0, 0);
        assertThat(numbers(chart.signals())).containsExactly(14L, 15L, 16L, 17L, 18L, 19L, 20L);
        assertThat(chart.signals()).allMatch(point -> point.signal() == SignalKind.HIGH);
        assertThat(chart.warnings()).isEmpty();
        // in SD of .635, which makes k one half
        ValueChart scaled =
                new CusumDesign(.5, 4.1959 / .635, 0).chart(series, Baseline.given(325, .635), Restart.CONTINUE);
        assertThat(numbers(scaled.signals())).isEqualTo(numbers(chart.signals()));
        assertThat(scaled.points().get(19).statistic() * .635).isCloseTo(19.04, within(.00501));
        ValueChart stopped = new CusumDesign(.3175, 4.1959, 0).chart(series, Baseline.given(325, 1), Restart.STOP);
        assertThat(stopped.points()).hasSize(14);
        // by hand: 2.5075, then + 3.1825 = 5.69; 1.3575, 3.815; 1.5575; + 3.0325 = 4.59
        ValueChart restarted = new CusumDesign(.3175, 4.1959, 0).chart(series, Baseline.given(325, 1), Restart.RESTART);
        assertThat(numbers(restarted.signals())).containsExactly(14L, 16L, 19L);
        assertThat(restarted.points().get(14).statistic()).isCloseTo(2.5075, within(1e-9));
    }

    @Test
    void lowerSideAndHeadStart() {
        ValueSeries series = ValueSeries.of(-1, -1, -1, -1, -1, -1, -1, -1);
        // by hand: .5 a case from 2: 2.5, 3, 3.5, 4 signals; the upper sum 2 → .5 → 0
        ValueChart chart = new CusumDesign(.5, 4, 2).chart(series, Baseline.given(0, 1), Restart.RESTART);
        assertThat(statistics(chart.otherPoints())).containsExactly(2.5, 3, 3.5, 4, 2.5, 3, 3.5, 4);
        assertThat(statistics(chart.points())).containsExactly(.5, 0, 0, 0, .5, 0, 0, 0);
        assertThat(numbers(chart.signals())).containsExactly(4L, 8L);
        assertThat(chart.signals()).allMatch(point -> point.signal() == SignalKind.LOW);
        assertThat(chart.kind()).contains("head start 2.0");
        assertThat(new CusumDesign(.5, 4, 0)
                        .chart(series, Baseline.given(0, 1), Restart.STOP)
                        .kind())
                .doesNotContain("head");
        ValueChart stop = new CusumDesign(.5, 4, 2).chart(series, Baseline.given(0, 1), Restart.STOP);
        assertThat(stop.points()).hasSize(4);
        assertThat(stop.otherPoints()).hasSize(4);
        assertThat(new CusumDesign(.5, 4, 2)
                        .chart(series, Baseline.given(0, 1), Restart.CONTINUE)
                        .signals())
                .hasSize(5);
        assertThatThrownBy(() -> new CusumDesign(-.1, 4, 0)).hasMessageContaining("below 0");
        assertThatThrownBy(() -> new CusumDesign(.5, 0, 0)).hasMessageContaining("h is");
        assertThatThrownBy(() -> new CusumDesign(.5, 4, 4)).hasMessageContaining("head start");
        assertThatThrownBy(() -> new CusumDesign(.5, 4, -1)).hasMessageContaining("head start");
        assertThat(new CusumDesign(0, 4, 0).k()).isZero();
    }

    @Test
    void ewmaOfTwentyPoints() {
        // e-Handbook 6.3.2.4: target 50, s = 2.0539, lambda .3, steady limits 52.5884 and 47.4115; the statistic as
        // printed
        ValueSeries series = ValueSeries.of(
                52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6,
                52.4, 53.6, 52.1);
        Baseline baseline = Baseline.given(50, 2.0539);
        ValueChart chart = new EwmaDesign(.3, 3, true).chart(series, baseline);
        assertThat(chart.points().get(0).upper()).isCloseTo(52.5884, within(1.001e-4));
        assertThat(chart.points().get(19).lower()).isCloseTo(47.4115, within(1.001e-4));
        assertThat(statistics(chart.points()))
                .usingComparatorWithPrecision(.00501)
                .containsExactly(
                        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52,
                        50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99);
        assertThat(chart.signals()).isEmpty();
        // exact limits: at the first case 3 × .3 × 2.0539 about the target, at the second times √(1 + .49)
        ValueChart exact = new EwmaDesign(.3, 3, false).chart(series, baseline);
        assertThat(exact.points().get(0).upper()).isCloseTo(50 + 1.84851, within(1e-9));
        assertThat(exact.points().get(1).lower()).isCloseTo(50 - 1.84851 * Math.sqrt(1.49), within(1e-9));
        assertThat(exact.points().get(19).upper()).isCloseTo(52.5884, within(1.001e-4));
        assertThat(exact.signals()).isEmpty();
        ValueChart shifted = new EwmaDesign(.3, 3, false).chart(series, Baseline.given(53, 2.0539));
        assertThat(shifted.signals()).isNotEmpty().allMatch(point -> point.signal() == SignalKind.LOW);
        ValueChart low = new EwmaDesign(.3, 3, false).chart(series, Baseline.given(47, 2.0539));
        assertThat(low.signals()).isNotEmpty().allMatch(point -> point.signal() == SignalKind.HIGH);
        assertThat(new EwmaDesign(1, 3, false).halfWidth(1)).isEqualTo(3);
        assertThatThrownBy(() -> new EwmaDesign(0, 3, true)).hasMessageContaining("lambda");
        assertThatThrownBy(() -> new EwmaDesign(1.1, 3, true)).hasMessageContaining("lambda");
        assertThatThrownBy(() -> new EwmaDesign(.1, 0, true)).hasMessageContaining("width");
    }

    @Test
    void pointsOutsideAndWideStepsAreSignals() {
        ValueSeries series = ValueSeries.of(0, 3, 3.1, -3, -3.01, 0);
        ValueChart chart = IndividualsChart.of(series, Baseline.given(0, 1), Set.of());
        assertThat(chart.points().stream().map(ChartPoint::signal))
                .containsExactly(null, null, SignalKind.HIGH, null, SignalKind.LOW, null);
        assertThat(chart.points().get(2).note()).isEqualTo("a point beyond 3 SD");
        assertThat(chart.points().get(1).note()).isEmpty();
        // limit of the ranges: 3.267 × 1.128 = 3.685
        assertThat(chart.otherPoints().stream().map(ChartPoint::signal))
                .containsExactly(null, null, SignalKind.HIGH, null, null);
        assertThat(chart.otherPoints().get(2).note()).contains("step");
        assertThat(chart.otherPoints().get(1).note()).isEmpty();
        assertThat(numbers(chart.signals())).containsExactly(3L, 4L, 5L);
    }

    private static List<Long> signals(Set<RunRule> rules, double... values) {
        return numbers(IndividualsChart.of(ValueSeries.of(values), Baseline.given(0, 1), rules).points().stream()
                .filter(point -> point.signal() != null)
                .toList());
    }

    @Test
    void runRulesByTheirWords() {
        // each by its definition, Western Electric 1956
        Set<RunRule> two = Set.of(RunRule.TWO_OF_THREE_BEYOND_2_SD);
        assertThat(signals(two, 2.1, 0, 2.1)).containsExactly(3L);
        assertThat(signals(two, 2.1, 0, 0, 2.1)).isEmpty();
        assertThat(signals(two, 2.1, 0, -2.1)).isEmpty();
        assertThat(signals(two, -2.1, -2.1)).containsExactly(2L);
        assertThat(signals(two, 2.1, 2.1, 0)).containsExactly(2L);
        assertThat(signals(two, 2, 2, 2)).isEmpty();
        // the rules begin anew after a signal
        assertThat(signals(two, 2.1, 2.1, 2.1, 2.1)).containsExactly(2L, 4L);
        Set<RunRule> four = Set.of(RunRule.FOUR_OF_FIVE_BEYOND_1_SD);
        assertThat(signals(four, 1.1, 1.1, 0, 1.1, 1.1)).containsExactly(5L);
        assertThat(signals(four, 1.1, 1.1, -1.1, 1.1, 1.1)).containsExactly(5L);
        assertThat(signals(four, 1.1, 1.1, 0, 0, 1.1, 1.1)).isEmpty();
        assertThat(signals(four, -1.1, -1.1, -1.1, -1.1)).containsExactly(4L);
        assertThat(signals(four, 1.1, 1.1, 1.1, .5)).isEmpty();
        Set<RunRule> eight = Set.of(RunRule.EIGHT_ON_ONE_SIDE);
        assertThat(signals(eight, .1, .1, .1, .1, .1, .1, .1, .1)).containsExactly(8L);
        assertThat(signals(eight, -.1, .1, .1, .1, .1, .1, .1, .1)).isEmpty();
        assertThat(signals(eight, .1, -.1, -.1, -.1, -.1, -.1, -.1, -.1, -.1)).containsExactly(9L);
        ValueChart chart = IndividualsChart.of(
                ValueSeries.of(-.1, -.1, -.1, -.1, -.1, -.1, -.1, -.1), Baseline.given(0, 1), eight);
        assertThat(chart.points().get(7).signal()).isEqualTo(SignalKind.LOW);
        assertThat(chart.points().get(7).note()).isEqualTo("eight in a row on one side");
        assertThat(signals(Set.of(RunRule.BEYOND_3_SD, RunRule.EIGHT_ON_ONE_SIDE), 3.5, .1, .1, .1, .1, .1, .1, .1, .1))
                .containsExactly(1L, 9L);
    }

    @Test
    void baselineFromTheFirstCasesOnly() {
        Baseline four = Baseline.ofFirst(FLOW, 4).orElseThrow();
        // (49.6 + 47.6 + 49.9 + 51.3)/4 and (2 + 2.3 + 1.4)/3/1.128
        assertThat(four.mean()).isCloseTo(49.6, within(1e-9));
        assertThat(four.sd()).isCloseTo(1.9 / 1.128, within(1e-9));
        assertThat(Baseline.ofFirst(FLOW, 2).orElseThrow().sd()).isCloseTo(2 / 1.128, within(1e-9));
        assertThatThrownBy(() -> Baseline.ofFirst(FLOW, 1)).hasMessageContaining("baseline of 1");
        assertRefused(Baseline.ofFirst(FLOW, 11), Refusal.Reason.TOO_FEW, "there are 10 cases, the chart needs 11");
        assertRefused(Baseline.ofFirst(ValueSeries.of(3, 3, 3, 4), 3), Refusal.Reason.NO_VARIATION, "3 cases all have");
        assertThatThrownBy(() -> Baseline.given(0, 0)).hasMessageContaining("SD");
        assertThatThrownBy(() -> Baseline.given(Double.NaN, 1)).hasMessageContaining("mean");
        double[] many = new double[100];
        for (int i = 0; i < 100; i++) {
            many[i] = i % 2;
        }
        assertThat(Baseline.ofFirst(ValueSeries.of(many), 100).orElseThrow().warnings())
                .isEmpty();
        assertThat(Baseline.ofFirst(ValueSeries.of(many), 99).orElseThrow().warnings())
                .hasSize(1);
    }

    @Test
    void valuesHaveToBeEveryCaseInTurn() {
        ValueSeries found = ValueSeries.of(new long[] {3, 1, 2}, Arrays.asList(30.0, 10.0, 20.0))
                .orElseThrow();
        assertThat(found.values()).containsExactly(10.0, 20.0, 30.0);
        assertThat(found.first()).isEqualTo(1);
        assertThat(found.warnings()).singleElement().asString().contains("sorted");
        assertRefused(
                ValueSeries.of(new long[] {1, 2}, Arrays.asList(1.0, null)),
                Refusal.Reason.SELECTED_SERIES,
                "case 2 unknown");
        assertRefused(
                ValueSeries.of(new long[] {1, 2}, Arrays.asList(Double.NaN, 2.0)),
                Refusal.Reason.SELECTED_SERIES,
                "case 1 unknown");
    }

    private static void assertRefused(Outcome<?> outcome, Refusal.Reason reason, String words) {
        assertThat(outcome)
                .asInstanceOf(InstanceOfAssertFactories.type(Outcome.Refused.class))
                .satisfies(refused -> {
                    assertThat(refused.refusal().reason()).isEqualTo(reason);
                    assertThat(refused.refusal().why()).contains(words);
                });
    }
}
