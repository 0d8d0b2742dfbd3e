package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

/** What holds whatever the data. */
class MonitoringProperties {

    @Property(tries = 200)
    void heldChartsAreNeverBelowZeroAndSignalAtTheLimitOnly(
            @ForAll @Size(min = 1, max = 80) List<Boolean> failures,
            @ForAll @DoubleRange(min = .3, max = 3) double r,
            @ForAll @DoubleRange(min = .2, max = 4) double h) {
        BinaryDesign design = new LlrDesign(r == 1 ? 2 : r, h, .1);
        BinarySeries series = new BinarySeries(1, failures, List.of(), List.of());
        BinaryChart chart = BinaryCusum.chart(design, series, Restart.RESTART);
        assertThat(chart.points()).hasSize(failures.size());
        assertThat(chart.points())
                .allSatisfy(point -> assertThat(point.statistic()).isGreaterThanOrEqualTo(0));
        assertThat(chart.points())
                .allSatisfy(point -> assertThat(point.signal() != null).isEqualTo(point.statistic() >= h - 1e-9));
    }

    @Property(tries = 200)
    void observedLessExpectedEndsAtTheDifferenceOfTheSums(
            @ForAll @Size(min = 1, max = 60) List<Boolean> failures,
            @ForAll @DoubleRange(min = .01, max = .9) double risk) {
        ObservedExpected found = ObservedExpected.of(new BinarySeries(1, failures, List.of(), List.of()), risk, .9)
                .orElseThrow();
        long observed = failures.stream().filter(x -> x).count();
        double last = found.points().get(found.points().size() - 1).statistic();
        assertThat(last).isCloseTo(observed - failures.size() * risk, within(1e-9));
        assertThat(found.saved()).isCloseTo(-last, within(1e-9));
        assertThat(found.limits().lower()).isLessThanOrEqualTo(0 + 1);
        assertThat(found.excessProbability()).isBetween(0.0, 1.0);
    }

    @Property(tries = 25)
    void runLengthGrowsWithTheLimitAndFallsWithTheRate(
            @ForAll @IntRange(min = 4, max = 30) int m,
            @ForAll @IntRange(min = 1, max = 2) int h,
            @ForAll @DoubleRange(min = .02, max = .3) double rate) {
        TabularDesign design = new TabularDesign(1.0 / m, h, .01, .5);
        TabularDesign higher = new TabularDesign(1.0 / m, h + 1.0 / m, .01, .5);
        RunLength run = BinaryRunLength.of(design, rate);
        assertThat(BinaryRunLength.of(higher, rate).arl()).isGreaterThanOrEqualTo(run.arl() * (1 - 1e-9));
        assertThat(BinaryRunLength.of(design, rate * 1.2).arl()).isLessThan(run.arl());
        assertThat(run.median()).isLessThanOrEqualTo((long) Math.ceil(run.arl()));
    }

    @Property(tries = 25)
    void chosenLimitKeepsItsPromise(
            @ForAll @IntRange(min = 5, max = 60) int n, @ForAll @DoubleRange(min = .02, max = .3) double alpha) {
        LlrDesign design = new LlrDesign(2, 1, .08);
        LimitFinder.HorizonLimit found = LimitFinder.forHorizon(design, .08, n, alpha);
        double held = BinaryRunLength.of(LimitFinder.withLimit(design, found.limit()), .08)
                .signalWithin(n);
        assertThat(held).isCloseTo(found.falseSignals(), within(1e-10)).isLessThanOrEqualTo(alpha);
        assertThat(found.reaching()).isGreaterThan(alpha);
        assertThat(found.quantile()).isLessThan(found.limit());
    }

    @Property(tries = 200)
    void firstSignalNeverComesSoonerWithAHigherLimit(
            @ForAll @Size(min = 1, max = 120) List<Boolean> failures,
            @ForAll @DoubleRange(min = .2, max = 3) double h,
            @ForAll @DoubleRange(min = 0, max = 2) double more,
            @ForAll @IntRange(min = 0, max = 2) int kind) {
        BinarySeries series = new BinarySeries(1, failures, List.of(), List.of());
        BinaryDesign design = kind == 0
                ? new LlrDesign(2, h, .2)
                : kind == 1 ? new TabularDesign(.3, h, .2, .4) : new LearningCurveDesign(.2, .5, h);
        long low = firstSignal(BinaryCusum.chart(design, series, Restart.STOP));
        long high = firstSignal(BinaryCusum.chart(LimitFinder.withLimit(design, h + more), series, Restart.STOP));
        assertThat(high).isGreaterThanOrEqualTo(low);
    }

    @Property(tries = 200)
    void strictErrorsNeverDecideSooner(
            @ForAll @Size(min = 1, max = 150) List<Boolean> failures,
            @ForAll @DoubleRange(min = .01, max = .4) double error,
            @ForAll @DoubleRange(min = .3, max = 1) double share) {
        BinarySeries series = new BinarySeries(1, failures, List.of(), List.of());
        long lax = firstSignal(BinaryCusum.chart(new SprtDesign(.3, .6, error, error), series, Restart.STOP));
        double strict = error * share;
        long slow = firstSignal(BinaryCusum.chart(new SprtDesign(.3, .6, strict, strict), series, Restart.STOP));
        assertThat(slow).isGreaterThanOrEqualTo(lax);
    }

    private static long firstSignal(BinaryChart chart) {
        return chart.signals().isEmpty()
                ? Long.MAX_VALUE
                : chart.signals().get(0).caseNumber();
    }

    @Property(tries = 12)
    void simulatedRunLengthLiesAboutTheExactOne(
            @ForAll @DoubleRange(min = 1.3, max = 4) double r,
            @ForAll @DoubleRange(min = .5, max = 2) double h,
            @ForAll @DoubleRange(min = .05, max = .4) double rate,
            @ForAll long seed) {
        LlrDesign design = new LlrDesign(r, h, .1);
        RunLength exact = BinaryRunLength.of(design, rate);
        SplittableRandom random = new SplittableRandom(seed);
        int runs = 1500;
        double sum = 0;
        for (int i = 0; i < runs; i++) {
            double s = 0;
            int n = 0;
            while (s < h - BinaryDesign.TOLERANCE) {
                s = Math.max(0, s + design.weight(random.nextDouble() < rate, .1));
                n++;
            }
            sum += n;
        }
        assertThat(sum / runs).isCloseTo(exact.arl(), within(6 * exact.sd() / Math.sqrt(runs)));
    }

    @Property(tries = 100)
    void valueCusumIsNeverNegativeAndItsSidesMirror(
            @ForAll @Size(min = 1, max = 60) List<@DoubleRange(min = -5, max = 5) Double> values,
            @ForAll @DoubleRange(min = 0, max = 1) double k,
            @ForAll @DoubleRange(min = 1, max = 6) double h) {
        CusumDesign design = new CusumDesign(k, h, 0);
        ValueChart chart = design.chart(new ValueSeries(1, values, List.of()), Baseline.given(0, 1), Restart.CONTINUE);
        ValueChart mirror = design.chart(
                new ValueSeries(1, values.stream().map(x -> -x).toList(), List.of()),
                Baseline.given(0, 1),
                Restart.CONTINUE);
        assertThat(chart.points()).allSatisfy(p -> assertThat(p.statistic()).isGreaterThanOrEqualTo(0));
        assertThat(chart.otherPoints().stream().map(ChartPoint::statistic))
                .isEqualTo(mirror.points().stream().map(ChartPoint::statistic).toList());
        assertThat(chart.signals())
                .allSatisfy(p -> assertThat(p.statistic()).isGreaterThanOrEqualTo(h - BinaryDesign.TOLERANCE));
    }

    @Property(tries = 100)
    void ewmaStaysWithinTheRangeOfTheData(
            @ForAll @Size(min = 1, max = 60) List<@DoubleRange(min = -5, max = 5) Double> values,
            @ForAll @DoubleRange(min = .05, max = 1) double lambda) {
        ValueChart chart =
                new EwmaDesign(lambda, 3, false).chart(new ValueSeries(1, values, List.of()), Baseline.given(0, 1));
        assertThat(chart.points()).allSatisfy(p -> assertThat(p.statistic()).isBetween(-5 - 1e-9, 5 + 1e-9));
        assertThat(chart.points()).allSatisfy(p -> {
            assertThat(p.upper()).isGreaterThan(0);
            assertThat(p.signal() != null).isEqualTo(p.statistic() > p.upper() || p.statistic() < p.lower());
        });
    }
}
