package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Numbers without another source: exact arithmetic with the published formulas (Williams et al. 1992, Steiner et al. 2000,
 * Biau & Porcher 2010), worked out outside this program by exact arithmetic.
 */
class BinaryCusumTest {

    static BinarySeries series(int cases, Integer... failures) {
        Set<Integer> failed = Set.of(failures);
        boolean[] outcomes = new boolean[cases];
        for (int i = 1; i <= cases; i++) {
            outcomes[i - 1] = failed.contains(i);
        }
        return BinarySeries.of(outcomes);
    }

    private static double at(BinaryChart chart, int number) {
        return chart.points().get(number - 1).statistic();
    }

    private static List<Long> numbers(List<ChartPoint> points) {
        return points.stream().map(ChartPoint::caseNumber).toList();
    }

    @ParameterizedTest
    @CsvSource({
        ".05, .10, .05, 2.11111, .072358, 3.940554, 55",
        ".05, .10, .10, 2.11111, .072358, 2.940554, 41",
        ".05, .10, .20, 2.11111, .072358, 1.855283, 26",
        ".05, .15, .10, 3.35294, .091934, 1.816131, 20",
        ".05, .15, .20, 3.35294, .091934, 1.145851, 13",
        ".10, .20, .10, 2.25000, .145244, 2.709511, 19",
        ".04, .08, .10, 2.08696, .057849, 2.986549, 52",
        ".02, .04, .10, 2.04167, .028888, 3.078352, 107",
        ".02, .05, .10, 2.57895, .032817, 2.319261, 71"
    })
    void sequentialTestHasThePublishedParameters(
            double p0, double p1, double error, double or, double s, double h, int cases) {
        SprtDesign design = new SprtDesign(p0, p1, error, error);
        assertThat(design.oddsRatio()).isCloseTo(or, within(5.001e-6));
        assertThat(design.s()).isCloseTo(s, within(5.001e-7));
        assertThat(design.h0()).isCloseTo(h, within(5.001e-7));
        assertThat(design.h1()).isCloseTo(h, within(5.001e-7));
        assertThat(design.fewestCasesToAccept()).isEqualTo(cases);
        assertThat(design.upperLimit()).isEqualTo(design.h1());
        assertThat(design.lowerLimit()).isEqualTo(-design.h0());
        // all successes: accepted at that very case
        BinaryChart chart = BinaryCusum.chart(design, series(cases + 5), Restart.STOP);
        assertThat(chart.points()).hasSize(cases);
        assertThat(chart.signals())
                .singleElement()
                .satisfies(p -> assertThat(p.signal()).isEqualTo(SignalKind.ACCEPTED));
    }

    @Test
    void unequalErrorsGiveUnequalLimits() {
        // by the formulas: ln(.95/.2)/ln(19/9) and ln(.8/.05)/ln(19/9)
        SprtDesign design = new SprtDesign(.05, .10, .05, .20);
        assertThat(design.h0()).isCloseTo(1.5581446 / 0.7472144, within(1e-6));
        assertThat(design.h1()).isCloseTo(2.7725887 / 0.7472144, within(1e-6));
    }

    @Test
    void lineOfTheSequentialTestAcceptsAtCase83() {
        BinaryChart chart =
                BinaryCusum.chart(new SprtDesign(.05, .10, .10, .10), series(90, 4, 9, 23), Restart.CONTINUE);
        int[] cases = {1, 3, 4, 8, 9, 22, 23, 40, 60, 80, 83};
        double[] expected = {-.0724, -.2171, .7106, .4211, 1.3488, .4081, 1.3358, .1057, -1.3415, -2.7887, -3.0057};
        for (int i = 0; i < cases.length; i++) {
            assertThat(at(chart, cases[i])).as("case " + cases[i]).isCloseTo(expected[i], within(5.1e-5));
        }
        assertThat(chart.first(SignalKind.ACCEPTED).caseNumber()).isEqualTo(83);
        assertThat(chart.first(SignalKind.ALARM)).isNull();
        assertThat(numbers(chart.signals())).containsExactly(83L, 84L, 85L, 86L, 87L, 88L, 89L, 90L);
        assertThat(chart.riskAdjusted()).isFalse();
    }

    @Test
    void restartedTestBeginsAgainAtZero() {
        SprtDesign design = new SprtDesign(.05, .15, .20, .20);
        BinaryChart chart = BinaryCusum.chart(design, series(30), Restart.RESTART);
        // 13 successes to accept (the table above), and 13 again
        assertThat(numbers(chart.signals())).containsExactly(13L, 26L);
        assertThat(at(chart, 14)).isCloseTo(-.091934, within(1e-6));
        assertThat(chart.last()).isCloseTo(-4 * .091934, within(1e-5));
    }

    @Test
    void tabularCusumSignalsAtCase9() {
        TabularDesign design = new TabularDesign(.10, 2, .05, .15);
        BinaryChart chart = BinaryCusum.chart(design, series(20, 3, 8, 9, 15), Restart.CONTINUE);
        double[] expected = {0, 0, .9, .8, .7, .6, .5, 1.4, 2.3, 2.2, 2.1, 2.0, 1.9, 1.8, 2.7, 2.6, 2.5, 2.4, 2.3, 2.2};
        assertThat(chart.points().stream().mapToDouble(ChartPoint::statistic).toArray())
                .usingComparatorWithPrecision(1e-9)
                .containsExactly(expected);
        // at 12 the sum is 2.0 up to rounding, which is at the limit
        assertThat(numbers(chart.signals())).containsExactly(9L, 10L, 11L, 12L, 15L, 16L, 17L, 18L, 19L, 20L);
        BinaryChart once = BinaryCusum.chart(design, series(20, 3, 8, 9, 15), Restart.STOP);
        assertThat(once.points()).hasSize(9);
        assertThat(once.last()).isCloseTo(2.3, within(1e-12));
        BinaryChart again = BinaryCusum.chart(design, series(20, 3, 8, 9, 15), Restart.RESTART);
        assertThat(numbers(again.signals())).containsExactly(9L);
        assertThat(at(again, 15)).isCloseTo(.9, within(1e-12));
        assertThat(chart.points().get(8).upper()).isEqualTo(2);
        assertThat(chart.points().get(8).lower()).isNull();
        assertThat(chart.points().get(8).observed()).isEqualTo(1);
        assertThat(chart.points().get(9).observed()).isZero();
    }

    @ParameterizedTest
    @CsvSource({
        "2, .01, -.009950, .683197",
        "2, .02, -.019803, .673345",
        "2, .05, -.048790, .644357",
        "2, .10, -.095310, .597837"
    })
    void logLikelihoodWeights(double r, double p, double success, double failure) {
        LlrDesign design = new LlrDesign(r, 2, p);
        assertThat(design.weight(false, p)).isCloseTo(success, within(5.001e-7));
        assertThat(design.weight(true, p)).isCloseTo(failure, within(5.001e-7));
        assertThat(design.falseSignalRate()).isEqualTo(p);
    }

    @ParameterizedTest
    @CsvSource({
        "-3.68, 0, .02460, -.0243, .6688",
        "-3.68, 50, .54240, -.4333, .2598",
        "-3.67, 19, .09912, -.0945, .5986"
    })
    void weightsOfSteinersRiskModel(double intercept, double score, double risk, double success, double failure) {
        // Steiner et al. 2000, Biostatistics 1:441: logit p = −3.68 + 0.077 score, R = 2
        double p = 1 / (1 + Math.exp(-intercept - 0.077 * score));
        assertThat(p).isCloseTo(risk, within(5.1e-6));
        LlrDesign design = new LlrDesign(2, 4.5, .05);
        assertThat(design.weight(false, p)).isCloseTo(success, within(5.1e-5));
        assertThat(design.weight(true, p)).isCloseTo(failure, within(5.1e-5));
    }

    static BinarySeries riskSeries() {
        List<Double> risks = List.of(.0106, .0385, .0106, .3246, .0385, .0106, .0306, .0106, .0385, .0106);
        List<Boolean> failures = List.of(false, false, false, false, true, false, true, false, false, true);
        return new BinarySeries(1, failures, risks, List.of());
    }

    @Test
    void riskAdjustedSeries() {
        BinaryChart chart = BinaryCusum.chart(new LlrDesign(2, 4.5, .05), riskSeries(), Restart.RESTART);
        double[] expected = {0, 0, 0, 0, .6554, .6448, 1.3078, 1.2973, 1.2595, 1.9421};
        assertThat(chart.points().stream().mapToDouble(ChartPoint::statistic).toArray())
                .usingComparatorWithPrecision(5.1e-5)
                .containsExactly(expected);
        assertThat(chart.riskAdjusted()).isTrue();
        assertThat(chart.signals()).isEmpty();
        ObservedExpected display = ObservedExpected.of(riskSeries(), .05, .95).orElseThrow();
        double[] saved = {.0106, .0491, .0597, .3843, -.5772, -.5666, -1.5360, -1.5254, -1.4869, -2.4763};
        assertThat(display.points().stream().mapToDouble(p -> -p.statistic()).toArray())
                .usingComparatorWithPrecision(5.1e-5)
                .containsExactly(saved);
        assertThat(display.saved()).isCloseTo(-2.4763, within(5.1e-5));
        assertThat(display.expected()).isCloseTo(.5237, within(1e-9));
        assertThat(display.observed()).isEqualTo(3);
    }

    @Test
    void riskAdjustedTestUsesTheRiskOfTheCase() {
        SprtDesign design = new SprtDesign(.05, .10, .10, .10);
        // by the formula: 1 − ln(1 − .3 + 2.1111111 × .3)/ln 2.1111111 = 1 − .28768207/.74721440
        assertThat(design.weight(true, .3)).isCloseTo(0.6149939, within(1e-6));
        assertThat(design.weight(false, .3)).isCloseTo(-0.3850061, within(1e-6));
        BinarySeries one = new BinarySeries(1, List.of(true), List.of(.3), List.of());
        BinaryChart chart = BinaryCusum.chart(design, one, Restart.STOP);
        assertThat(chart.last()).isCloseTo(0.6149939, within(1e-6));
        assertThat(chart.riskAdjusted()).isTrue();
        assertThat(design.weight(false, .05)).isCloseTo(-design.s(), within(1e-15));
    }

    @Test
    void oddsMultiplierBelowOneLooksForImprovement() {
        // by Steiner's formulas, R = 1/2, p = .2: success −ln .9 = +.1053605, failure ln .5 − ln .9 = −.5877867
        LlrDesign design = new LlrDesign(.5, 1, .2);
        assertThat(design.weight(false, .2)).isCloseTo(.1053605, within(1e-7));
        assertThat(design.weight(true, .2)).isCloseTo(-.5877867, within(1e-7));
        assertThat(design.otherRate()).isCloseTo(.1 / .9, within(1e-12));
        BinaryChart chart = BinaryCusum.chart(design, series(20), Restart.RESTART);
        assertThat(numbers(chart.signals())).containsExactly(10L, 20L);
        assertThat(chart.first(SignalKind.IMPROVED).caseNumber()).isEqualTo(10);
        assertThat(new LlrDesign(2, 1, .2).upperSignal()).isEqualTo(SignalKind.ALARM);
    }

    @ParameterizedTest
    @CsvSource({
        ".05, .10, .054067, -.693147, 1.0, 19",
        ".05, .10, .054067, -.693147, 1.5, 28",
        ".05, .15, .111226, -1.098612, 1.25, 12",
        ".05, .15, .111226, -1.098612, 2.0, 18",
        ".10, .20, .117783, -.693147, 1.5, 13",
        ".02, .05, .031091, -.916291, 1.5, 49"
    })
    void learningCurveWeightsAndFewestCases(
            double pa, double pi, double success, double failure, double h, int fewest) {
        LearningCurveDesign design = new LearningCurveDesign(pa, pi, h);
        assertThat(design.weight(false, 0)).isCloseTo(success, within(5.001e-7));
        assertThat(design.weight(true, 0)).isCloseTo(failure, within(5.001e-7));
        assertThat(design.fewestCases()).isEqualTo(fewest);
        assertThat(BinaryCusum.chart(design, series(fewest), Restart.STOP).signals())
                .hasSize(1);
        assertThat(BinaryCusum.chart(design, series(fewest - 1), Restart.STOP).signals())
                .isEmpty();
        assertThat(design.falseSignalRate()).isEqualTo(pi);
    }

    @Test
    void learningCurveSeriesShowsCompetenceAtCase21() {
        LearningCurveDesign design = new LearningCurveDesign(.05, .15, 1.5);
        BinaryChart chart = BinaryCusum.chart(design, series(30, 2, 7), Restart.STOP);
        assertThat(at(chart, 1)).isCloseTo(.11123, within(5.1e-6));
        assertThat(at(chart, 2)).isZero();
        assertThat(at(chart, 6)).isCloseTo(.44490, within(5.1e-6));
        assertThat(at(chart, 7)).isZero();
        assertThat(at(chart, 20)).isCloseTo(1.44593, within(5.1e-6));
        assertThat(at(chart, 21)).isCloseTo(1.55716, within(5.1e-6));
        assertThat(chart.points()).hasSize(21);
        assertThat(chart.first(SignalKind.ACCEPTED).caseNumber()).isEqualTo(21);
    }

    @Test
    void afterCompetenceAnOrdinaryCusumWatches() {
        LearningCurveDesign design = new LearningCurveDesign(.05, .15, 1.5);
        LlrDesign watch = design.watch(1.5);
        assertThat(watch.otherRate()).isCloseTo(.15, within(1e-12));
        // the same likelihood ratio the other way round
        assertThat(watch.weight(true, .05)).isCloseTo(1.098612, within(5.001e-7));
        assertThat(watch.weight(false, .05)).isCloseTo(-.111226, within(5.001e-7));
        BinaryChart chart = BinaryCusum.chartAndWatch(design, watch, series(30, 2, 7, 22, 23, 25), Restart.RESTART);
        assertThat(chart.points()).hasSize(30);
        assertThat(chart.points().get(20).note()).isEqualTo("learning");
        assertThat(chart.points().get(21).note()).isEqualTo("watching");
        assertThat(at(chart, 22)).isCloseTo(1.098612, within(1e-6));
        assertThat(at(chart, 23)).isCloseTo(2.197225, within(1e-6));
        assertThat(chart.first(SignalKind.ALARM).caseNumber()).isEqualTo(23);
        assertThat(at(chart, 24)).isZero();
        assertThat(at(chart, 25)).isCloseTo(1.098612, within(1e-6));
        assertThat(numbers(chart.signals())).containsExactly(21L, 23L);
        BinaryChart never = BinaryCusum.chartAndWatch(design, watch, series(10, 2, 7), Restart.STOP);
        assertThat(never.points()).hasSize(10);
        assertThat(never.signals()).isEmpty();
    }

    @Test
    void bothConventionsOfCompetenceAreNamed() {
        SprtDesign design = new SprtDesign(.05, .10, .10, .10);
        SprtVerdict verdict = SprtVerdict.of(design, series(150, 4, 9, 23));
        assertThat(verdict.acceptedAt()).isEqualTo(83);
        assertThat(verdict.acceptedStatistic()).isCloseTo(-3.0057, within(5.1e-5));
        // by hand: 3 − .072358 n ≤ −2 × 2.940554 first at n = 123
        assertThat(verdict.twoLinesAt()).isEqualTo(123);
        assertThat(verdict.twoLinesStatistic()).isCloseTo(3 - 123 * .072358, within(1e-4));
        assertThat(verdict.alarmAt()).isNull();
        assertThat(verdict.decision()).isEqualTo(SignalKind.ACCEPTED);
        assertThat(verdict.decidedAt()).isEqualTo(83);
    }

    @Test
    void alarmBeforeAcceptanceIsTheDecision() {
        SprtDesign design = new SprtDesign(.05, .10, .10, .10);
        // four failures: 4 − 4 × .072358 = 3.71 over h1 = 2.94; then falls through h1 at case 15 and through −h0 later
        SprtVerdict verdict = SprtVerdict.of(design, series(200, 1, 2, 3, 4));
        assertThat(verdict.alarmAt()).isEqualTo(4);
        assertThat(verdict.decision()).isEqualTo(SignalKind.ALARM);
        assertThat(verdict.decidedAt()).isEqualTo(4);
        // (4 + 2.940554)/.072358 = 95.9
        assertThat(verdict.acceptedAt()).isEqualTo(96);
        // h1 passed at case 15 and −h0 at case 96: two lines that follow each other
        assertThat(verdict.twoLinesAt()).isEqualTo(96);
        SprtVerdict open = SprtVerdict.of(design, series(10));
        assertThat(open.decision()).isNull();
        assertThat(open.decidedAt()).isNull();
        assertThat(open.acceptedAt()).isNull();
        assertThat(open.twoLinesAt()).isNull();
        assertThat(open.acceptedStatistic()).isNull();
        assertThat(open.twoLinesStatistic()).isNull();
    }

    @Test
    void risingBackThroughALineStartsTheCountAnew() {
        SprtDesign design = new SprtDesign(.05, .10, .10, .10);
        // 41 successes pass −h0; the failure at 42 lifts the line back over it, so −h0 and −2 h0 have to be passed
        // again;
        // by hand: 1 − .072358 n ≤ −5.881108 first at n = 96
        SprtVerdict verdict = SprtVerdict.of(design, series(120, 42));
        assertThat(verdict.acceptedAt()).isEqualTo(41);
        assertThat(verdict.twoLinesAt()).isEqualTo(96);
        // high above: lines 3 h1, 2 h1 are passed on the way down: 10 − .072358 n < 8.821662 and < 5.881108 at n = 57
        Integer[] ten = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10};
        assertThat(SprtVerdict.of(design, series(100, ten)).twoLinesAt()).isEqualTo(57);
    }

    @Test
    void chartWithoutRiskSaysThatItLeavesTheRisksOut() {
        BinaryChart chart = BinaryCusum.chart(new TabularDesign(.1, 2, .05, .15), riskSeries(), Restart.STOP);
        assertThat(chart.warnings()).singleElement().asString().contains("risks of the log were not used");
        assertThat(chart.riskAdjusted()).isFalse();
        BinaryChart odd = BinaryCusum.chart(new TabularDesign(.2, 2, .05, .15), series(3), Restart.STOP);
        assertThat(odd.warnings()).singleElement().asString().contains("k 0.2");
        assertThat(BinaryCusum.chart(new TabularDesign(.05, 2, .05, .15), series(3), Restart.STOP)
                        .warnings())
                .isEmpty();
        assertThat(new TabularDesign(.15, 2, .05, .15).isCentred()).isTrue();
        assertThat(new TabularDesign(.04, 2, .05, .15).isCentred()).isFalse();
    }

    @Test
    void impossibleParametersAreProgrammingErrors() {
        assertThatThrownBy(() -> new SprtDesign(.1, .05, .1, .1)).hasMessageContaining("below the unacceptable");
        assertThatThrownBy(() -> new SprtDesign(.1, .1, .1, .1)).hasMessageContaining("below the unacceptable");
        assertThatThrownBy(() -> new SprtDesign(.05, .1, .5, .1)).hasMessageContaining("alpha 0.5");
        assertThatThrownBy(() -> new SprtDesign(.05, .1, .1, .5)).hasMessageContaining("beta 0.5");
        assertThatThrownBy(() -> new SprtDesign(.05, .1, 0, .1)).hasMessageContaining("alpha 0");
        assertThatThrownBy(() -> new SprtDesign(.05, .1, .1, 0)).hasMessageContaining("beta 0");
        assertThatThrownBy(() -> new SprtDesign(0, .1, .1, .1)).hasMessageContaining("p0 is 0.0");
        assertThatThrownBy(() -> new SprtDesign(.1, 1, .1, .1)).hasMessageContaining("p1 is 1.0");
        assertThatThrownBy(() -> new TabularDesign(0, 2, .1, .2)).hasMessageContaining("k is");
        assertThatThrownBy(() -> new TabularDesign(.1, 0, .1, .2)).hasMessageContaining("h is");
        assertThatThrownBy(() -> new TabularDesign(.1, 2, 0, .2)).hasMessageContaining("p0");
        assertThatThrownBy(() -> new TabularDesign(.1, 2, .1, 1)).hasMessageContaining("p1");
        assertThatThrownBy(() -> new TabularDesign(.1, 2, .2, .1)).hasMessageContaining("below");
        assertThatThrownBy(() -> new LlrDesign(1, 2, .1)).hasMessageContaining("no change");
        assertThatThrownBy(() -> new LlrDesign(0, 2, .1)).hasMessageContaining("odds multiplier");
        assertThatThrownBy(() -> new LlrDesign(2, -1, .1)).hasMessageContaining("h is");
        assertThatThrownBy(() -> new LlrDesign(2, Double.POSITIVE_INFINITY, .1)).hasMessageContaining("h is");
        assertThatThrownBy(() -> new LlrDesign(2, 1, 0)).hasMessageContaining("p0");
        assertThatThrownBy(() -> new LearningCurveDesign(.1, .05, 1)).hasMessageContaining("below");
        assertThatThrownBy(() -> new LearningCurveDesign(0, .05, 1)).hasMessageContaining("adequate");
        assertThatThrownBy(() -> new LearningCurveDesign(.1, 1, 1)).hasMessageContaining("inadequate");
        assertThatThrownBy(() -> new LearningCurveDesign(.1, .2, 0)).hasMessageContaining("h is");
    }

    @Test
    void knowsItsFailures() {
        BinarySeries series = series(5, 2, 4);
        assertThat(series.failureCount()).isEqualTo(2);
        assertThat(series.size()).isEqualTo(5);
        assertThat(new ArrayList<>(Arrays.asList(false, true, false, true, false)))
                .isEqualTo(series.failures().stream().collect(Collectors.toList()));
    }
}
