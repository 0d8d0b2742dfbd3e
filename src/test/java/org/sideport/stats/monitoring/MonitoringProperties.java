package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
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
        ObservedExpected found = ObservedExpected.of(
                        new BinarySeries(1, failures, List.of(), List.of()), risk, .9)
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
}
