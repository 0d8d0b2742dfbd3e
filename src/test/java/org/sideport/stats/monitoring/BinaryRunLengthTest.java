package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Expected numbers: worked out outside this program by exact arithmetic. */
class BinaryRunLengthTest {

    @ParameterizedTest
    @CsvSource({
        "10, 2, .05, 304.0514, .13296, .26781",
        "10, 2, .10, 61.6374, .54630, .81990",
        "10, 2, .20, 18.5993, .96877, .99938",
        "10, 3, .05, 1283.7066, .02661, .06414",
        "10, 3, .20, 28.0886, .89374, .99474",
        "14, 2, .05, 181.2005, .20763, .40898",
        "14, 2, .10, 45.5112, .67495, .91721",
        "20, 2, .02, 992.4873, .03535, .08335",
        "20, 3, .05, 234.1087, .10712, .28976",
        "35, 3, .02, 1140.6047, .01219, .04611",
        "35, 3, .04, 185.0138, .10461, .32645"
    })
    void tabularCusumOnTheIntegerLattice(int m, double h, double p, double arl, double within50, double within100) {
        RunLength found = BinaryRunLength.of(new TabularDesign(1.0 / m, h, .01, .5), p);
        assertThat(found.arl()).isCloseTo(arl, within(5.001e-5));
        assertThat(found.signalWithin(50)).isCloseTo(within50, within(5.001e-6));
        assertThat(found.signalWithin(100)).isCloseTo(within100, within(5.001e-6));
        assertThat(found.method()).contains("integer lattice").contains(m * (int) h + " states");
        assertThat(found.error()).isLessThan(1e-6 * arl);
        // the counts of both weights give the same without the lattice
        double k = 1.0 / m;
        RunLength counts = RunLength.of(new StepCountChain(1 - k, k, h, p));
        assertThat(counts.arl()).isCloseTo(arl, within(5.1e-5));
    }

    @ParameterizedTest
    @CsvSource({".02, 2, .02, 1030", ".02, 2, .0392, 184", ".02, 3, .02, 3600", ".02, 3, .0392, 311", ".05, 2, .05, 432"
    })
    void logLikelihoodChartWithinThreePercent(double p0, double h, double p, double arl) {
        RunLength found = BinaryRunLength.of(new LlrDesign(2, h, p0), p);
        assertThat(found.arl()).isCloseTo(arl, Percentage.withPercentage(3));
        assertThat(found.method()).contains("exact");
        assertThat(found.error()).isLessThan(1e-4 * arl);
    }

    @ParameterizedTest
    @CsvSource({"2, 79", "2.5, 104"})
    void logLikelihoodChartAtDoubledOddsOfFivePercent(double h, double arl) {
        LlrDesign design = new LlrDesign(2, h, .05);
        assertThat(BinaryRunLength.of(design, design.otherRate()).arl()).isCloseTo(arl, Percentage.withPercentage(3));
    }

    @ParameterizedTest
    @CsvSource({
        ".05, .10, 1.0, .87, .54, .99, .84",
        // the source prints .92 in the third column; .9148 exactly and .9145 on the lattice, also by a separate script,
        // so
        // the printed figure seems rounded twice (.9148, .915, .92)
        ".05, .10, 1.5, .57, .19, .915, .46",
        ".05, .15, 1.25, .99, .74, 1.00, .95",
        ".05, .15, 2.0, .92, .32, 1.00, .61",
        ".10, .20, 1.5, .93, .48, 1.00, .77",
        ".02, .05, 1.5, .41, .10, .81, .34"
    })
    void learningCurveTableOnTheLatticeOf500(
            double pa, double pi, double h, double a50, double i50, double a100, double i100) {
        LearningCurveDesign design = new LearningCurveDesign(pa, pi, h);
        // the table was made with the weights rounded to 1/500
        RunLength adequate = BinaryRunLength.onLattice(design, pa, 500);
        RunLength inadequate = BinaryRunLength.onLattice(design, pi, 500);
        assertThat(adequate.signalWithin(50)).isCloseTo(a50, within(.005001));
        assertThat(inadequate.signalWithin(50)).isCloseTo(i50, within(.005001));
        assertThat(adequate.signalWithin(100)).isCloseTo(a100, within(.005001));
        assertThat(inadequate.signalWithin(100)).isCloseTo(i100, within(.005001));
        RunLength exact = BinaryRunLength.of(design, pa);
        assertThat(exact.signalWithin(design.fewestCases() - 1)).isCloseTo(0, within(1e-12));
        assertThat(exact.signalWithin(design.fewestCases()))
                .isCloseTo(Math.pow(1 - pa, design.fewestCases()), within(1e-12));
        assertThat(adequate.error()).isCloseTo(Math.abs(adequate.arl() - exact.arl()), within(1e-6));
        assertThat(adequate.method()).contains("1/500");
    }

    @Test
    void roundedWeightsCanMislead() {
        // 49 successes in turn are needed, so within 50 by hand: .98^49 + .02 × .98^49 = .37903; the weights rounded to
        // 1/500 need 47 only: .98^47 (1 + 3 × .02) = .41013
        LearningCurveDesign design = new LearningCurveDesign(.02, .05, 1.5);
        assertThat(BinaryRunLength.of(design, .02).signalWithin(50)).isCloseTo(1.02 * Math.pow(.98, 49), within(1e-12));
        assertThat(BinaryRunLength.onLattice(design, .02, 500).signalWithin(50))
                .isCloseTo(1.06 * Math.pow(.98, 47), within(1e-12));
        assertThatThrownBy(() -> BinaryRunLength.onLattice(design, .02, 10)).hasMessageContaining("1/10");
        assertThatThrownBy(() -> BinaryRunLength.onLattice(design, .02, 100_000))
                .hasMessageContaining("1/100000");
        assertThatThrownBy(() -> BinaryRunLength.onLattice(new LlrDesign(2, 2, .02), .02, 20))
                .hasMessageContaining("1/20");
    }

    @Test
    void logLikelihoodChartAtALimitOfTwoAndAHalf() {
        // "about 800" in the same source, without a stated tolerance; one digit
        assertThat(BinaryRunLength.of(new LlrDesign(2, 2.5, .05), .05).arl()).isCloseTo(800, within(50.0));
    }

    @Test
    void fullEnumerationOfTenCases() {
        // R package cusum, unit test of the exact limit: p = .1, n = 10, R = 2, alpha = .05 gives 1.41227; enumeration
        // of
        // the 1024 outcomes gives P(max ≥ 1.412270283) = .05106 and P(max ≥ 1.507580) = .04149
        LlrDesign any = new LlrDesign(2, 1, .1);
        LimitFinder.HorizonLimit found = LimitFinder.forHorizon(any, .1, 10, .05);
        assertThat(found.quantile()).isCloseTo(1.41227, within(5.001e-6));
        assertThat(found.quantile()).isCloseTo(1.412270283, within(5.001e-10));
        assertThat(found.reaching()).isCloseTo(.05106, within(5.001e-6));
        assertThat(found.limit()).isCloseTo(1.507580, within(5.1e-7));
        assertThat(found.falseSignals()).isCloseTo(.04149, within(5.001e-6));
    }

    @Test
    void enumerationByHandOfTheRunLength() {
        // every outcome of 12 cases, charted: the share that signals within 12
        LlrDesign design = new LlrDesign(2.5, 1.6, .15);
        double sum = 0;
        double late = 0;
        for (int bits = 0; bits < 4096; bits++) {
            boolean[] outcomes = new boolean[12];
            double chance = 1;
            for (int i = 0; i < 12; i++) {
                outcomes[i] = (bits >> i & 1) == 1;
                chance *= outcomes[i] ? .2 : .8;
            }
            BinaryChart chart = BinaryCusum.chart(design, BinarySeries.of(outcomes), Restart.STOP);
            sum += chart.signals().isEmpty() ? 0 : chance;
            late += !chart.signals().isEmpty() && chart.points().size() > 6 ? chance : 0;
        }
        RunLength run = BinaryRunLength.of(design, .2);
        assertThat(run.signalWithin(12)).isCloseTo(sum, within(1e-12));
        assertThat(run.signalWithin(12) - run.signalWithin(6)).isCloseTo(late, within(1e-12));
        assertThat(run.signalWithin(0)).isZero();
    }

    @Test
    void geometricRunLengthHasItsKnownMoments() {
        // one failure signals: N is geometric with p = .1: mean 10, SD √.9/.1, median 7, 95 % quantile 29
        RunLength run = BinaryRunLength.of(new TabularDesign(.5, .5, .1, .6), .1);
        assertThat(run.arl()).isCloseTo(10, within(1e-9));
        assertThat(run.sd()).isCloseTo(9.486832981, within(1e-7));
        assertThat(run.median()).isEqualTo(7);
        assertThat(run.quantile(.95)).isEqualTo(29);
        assertThat(run.signalWithin(1)).isCloseTo(.1, within(1e-15));
        assertThat(run.signalWithin(5000)).isCloseTo(1, within(1e-12));
        assertThatThrownBy(() -> run.quantile(0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> run.quantile(1)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void rareSignalsAreFollowedIntoTheTail() {
        // p = .001: mean 1000, SD √.999 × 1000, median ⌈ln .5/ln .999⌉ = 693, 99.9 % ⌈ln .001/ln .999⌉ = 6905
        RunLength run = BinaryRunLength.of(new TabularDesign(.5, .5, .1, .6), .001);
        assertThat(run.arl()).isCloseTo(1000, within(1e-6));
        assertThat(run.sd()).isCloseTo(999.4998749, within(1e-5));
        assertThat(run.median()).isEqualTo(693);
        assertThat(run.quantile(.999)).isEqualTo(6905);
        assertThat(run.signalWithin(3000)).isCloseTo(1 - Math.pow(.999, 3000), within(1e-10));
        assertThat(run.signalWithin(40)).isCloseTo(1 - Math.pow(.999, 40), within(1e-12));
    }

    @Test
    void simulatedRunLengthsAgree() {
        LlrDesign design = new LlrDesign(2, 2, .05);
        double rate = design.otherRate();
        RunLength exact = BinaryRunLength.of(design, rate);
        SplittableRandom random = new SplittableRandom(11);
        int runs = 20_000;
        double sum = 0;
        double squares = 0;
        int within = 0;
        for (int run = 0; run < runs; run++) {
            double s = 0;
            int n = 0;
            while (s < 2) {
                s = Math.max(0, s + design.weight(random.nextDouble() < rate, .05));
                n++;
            }
            sum += n;
            squares += (double) n * n;
            within += n <= 50 ? 1 : 0;
        }
        double mean = sum / runs;
        double sd = Math.sqrt(squares / runs - mean * mean);
        assertThat(mean).isCloseTo(exact.arl(), within(4 * exact.sd() / Math.sqrt(runs)));
        assertThat(sd).isCloseTo(exact.sd(), Percentage.withPercentage(4));
        assertThat(within / (double) runs).isCloseTo(exact.signalWithin(50), within(4 * .5 / Math.sqrt(runs)));
    }

    @Test
    void gridOfOneRiskIsAsGoodAsItsStatedError() {
        LlrDesign design = new LlrDesign(2, 2, .05);
        double exact = BinaryRunLength.of(design, .05).arl();
        RunLength grid = BinaryRunLength.of(design, new RiskMix(List.of(.05), List.of(1.0)), 1);
        assertThat(grid.arl()).isCloseTo(exact, Percentage.withPercentage(1));
        assertThat(grid.error()).isGreaterThan(0).isLessThan(.03 * exact);
        assertThat(Math.abs(grid.arl() - exact)).isLessThan(2 * grid.error());
        assertThat(grid.method()).contains("600 cells");
        // odds doubled everywhere is the rate the chart looks for
        RunLength doubled = BinaryRunLength.of(design, new RiskMix(List.of(.05), List.of(1.0)), 2);
        assertThat(doubled.arl())
                .isCloseTo(BinaryRunLength.of(design, design.otherRate()).arl(), Percentage.withPercentage(1));
    }

    @Test
    void runLengthOverAMixAgreesWithSimulation() {
        LlrDesign design = new LlrDesign(2, 2, .05);
        RiskMix mix = new RiskMix(List.of(.02, .10), List.of(.7, .3));
        RunLength grid = BinaryRunLength.of(design, mix, 2);
        SplittableRandom random = new SplittableRandom(5);
        int runs = 20_000;
        double sum = 0;
        for (int run = 0; run < runs; run++) {
            double s = 0;
            while (s < 2) {
                double risk = random.nextDouble() < .7 ? .02 : .10;
                double chance = 2 * risk / (1 + risk);
                s = Math.max(0, s + design.weight(random.nextDouble() < chance, risk));
                sum++;
            }
        }
        assertThat(sum / runs).isCloseTo(grid.arl(), within(4 * grid.sd() / Math.sqrt(runs) + grid.error()));
    }

    @Test
    void signalWithinTheseVeryCases() {
        LlrDesign design = new LlrDesign(2, 2, .05);
        double exact = BinaryRunLength.of(design, .05).signalWithin(60);
        assertThat(BinaryRunLength.signalWithin(design, Collections.nCopies(60, .05), 1))
                .isCloseTo(exact, within(.003));
        double worse = BinaryRunLength.of(design, design.otherRate()).signalWithin(60);
        assertThat(BinaryRunLength.signalWithin(design, Collections.nCopies(60, .05), 2))
                .isCloseTo(worse, within(.005));
        // two cases of high risk and a limit that both failures together reach: product of the chances
        LlrDesign two = new LlrDesign(2, .9, .05);
        assertThat(BinaryRunLength.signalWithin(two, List.of(.1, .2), 1)).isCloseTo(.02, within(1e-9));
    }

    @Test
    void observedMixCountsEachCaseTheSame() {
        RiskMix mix = RiskMix.of(List.of(.1, .02, .1, .3));
        assertThat(mix.risks()).containsExactly(.02, .1, .3);
        assertThat(mix.shares()).containsExactly(.25, .5, .25);
        assertThat(mix.meanRisk()).isCloseTo(.13, within(1e-12));
        assertThatThrownBy(() -> new RiskMix(List.of(), List.of())).hasMessageContaining("0 risks");
        assertThatThrownBy(() -> new RiskMix(List.of(.1), List.of(.5, .5))).hasMessageContaining("1 risks");
        assertThatThrownBy(() -> new RiskMix(List.of(.1, .2), List.of(.5, .6))).hasMessageContaining("add up");
        assertThatThrownBy(() -> new RiskMix(List.of(1.0), List.of(1.0))).hasMessageContaining("risk");
        assertThatThrownBy(() -> new RiskMix(List.of(.1, .2), List.of(1.0, 0.0)))
                .hasMessageContaining("share");
    }

    @Test
    void limitForAWishedRunLengthIsTheSmallestOne() {
        TabularDesign tabular = new TabularDesign(.1, 1, .05, .15);
        double limit = LimitFinder.forRunLength(tabular, .05, 304.05);
        // table above: h = 2 gives 304.0514, and 1.9 gives less
        assertThat(limit).isCloseTo(2, within(1e-9));
        assertThat(BinaryRunLength.of(LimitFinder.withLimit(tabular, 1.9), .05).arl())
                .isLessThan(304.05);
        LlrDesign llr = new LlrDesign(2, 1, .05);
        double h = LimitFinder.forRunLength(llr, .05, 432);
        assertThat(BinaryRunLength.of(LimitFinder.withLimit(llr, h), .05).arl()).isGreaterThanOrEqualTo(432 * .999999);
        assertThat(BinaryRunLength.of(LimitFinder.withLimit(llr, h - 2e-4), .05).arl())
                .isLessThan(432);
        LearningCurveDesign learning = new LearningCurveDesign(.05, .15, 1);
        double l = LimitFinder.forRunLength(learning, .15, 100);
        assertThat(BinaryRunLength.of(LimitFinder.withLimit(learning, l), .15).arl())
                .isGreaterThanOrEqualTo(99.9999);
        assertThat(BinaryRunLength.of(LimitFinder.withLimit(learning, l - 2e-4), .15)
                        .arl())
                .isLessThan(100);
        assertThatThrownBy(() -> LimitFinder.forRunLength(llr, .05, 1)).hasMessageContaining("cannot be met");
        assertThatThrownBy(() -> LimitFinder.forRunLength(llr, .05, 2e7)).hasMessageContaining("cannot be met");
    }

    @Test
    void limitForAHorizonRoundTrips() {
        TabularDesign tabular = new TabularDesign(.1, 1, .05, .15);
        LimitFinder.HorizonLimit found = LimitFinder.forHorizon(tabular, .05, 50, .133);
        // table above: h = 2 gives .13296 within 50
        assertThat(found.limit()).isCloseTo(2, within(1e-9));
        assertThat(found.falseSignals()).isCloseTo(.13296, within(5.001e-6));
        assertThat(found.quantile()).isCloseTo(1.9, within(1e-9));
        assertThat(found.reaching()).isGreaterThan(.133);
        BinaryDesign chosen = LimitFinder.withLimit(tabular, found.limit());
        assertThat(BinaryRunLength.of(chosen, .05).signalWithin(50)).isEqualTo(found.falseSignals(), within(1e-12));
        // a single case: only a failure, .05, reaches .9, and α = .06 allows it
        LimitFinder.HorizonLimit one = LimitFinder.forHorizon(tabular, .05, 1, .06);
        assertThat(one.limit()).isCloseTo(.9, within(1e-12));
        assertThat(one.quantile()).isZero();
        assertThat(one.reaching()).isEqualTo(1);
        assertThatThrownBy(() -> LimitFinder.forHorizon(tabular, .05, 1, .04)).hasMessageContaining("above 0.04");
        assertThatThrownBy(() -> LimitFinder.forHorizon(tabular, .05, 0, .04)).hasMessageContaining("horizon");
        assertThatThrownBy(() -> LimitFinder.forHorizon(tabular, .05, 1001, .04))
                .hasMessageContaining("horizon");
        assertThatThrownBy(() -> LimitFinder.forHorizon(tabular, .05, 10, 0)).hasMessageContaining("false-signal");
        assertThatThrownBy(() -> LimitFinder.withLimit(new SprtDesign(.05, .1, .1, .1), 2))
                .hasMessageContaining("alpha and beta");
    }

    @Test
    void fractionsAreRecognised() {
        assertThat(BinaryRunLength.unitsPerCase(1 / 35.0)).isEqualTo(35);
        assertThat(BinaryRunLength.unitsPerCase(.07)).isEqualTo(100);
        assertThat(BinaryRunLength.unitsPerCase(.0723)).isZero();
        assertThat(BinaryRunLength.unitsPerCase(Math.sqrt(2) / 20)).isZero();
        assertThat(BinaryRunLength.unitsPerCase(1e-6)).isZero();
        assertThat(BinaryRunLength.of(new TabularDesign(Math.sqrt(2) / 20, 2, .05, .1), .05)
                        .method())
                .contains("counts");
        assertThatThrownBy(() -> BinaryRunLength.of(new SprtDesign(.05, .1, .1, .1), .05))
                .hasMessageContaining("two limits");
        assertThatThrownBy(() -> BinaryRunLength.of(new LlrDesign(2, 2, .1), 0)).hasMessageContaining("true rate");
    }
}
