package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

class SprtRunLengthTest {

    private final SprtDesign design = new SprtDesign(.05, .10, .10, .10);

    @Test
    void enumerationOfEveryOutcomeAgrees() {
        // strong design, so that 14 cases decide often: all 16384 outcomes charted
        SprtDesign quick = new SprtDesign(.1, .5, .2, .2);
        double accepts = 0;
        double alarms = 0;
        for (int bits = 0; bits < 1 << 14; bits++) {
            boolean[] outcomes = new boolean[14];
            double chance = 1;
            for (int i = 0; i < 14; i++) {
                outcomes[i] = (bits >> i & 1) == 1;
                chance *= outcomes[i] ? .3 : .7;
            }
            BinaryChart chart = BinaryCusum.chart(quick, BinarySeries.of(outcomes), Restart.STOP);
            accepts += chart.first(SignalKind.ACCEPTED) == null ? 0 : chance;
            alarms += chart.first(SignalKind.ALARM) == null ? 0 : chance;
        }
        SprtRunLength found = SprtRunLength.of(quick, .3);
        assertThat(found.acceptsWithin(14)).isCloseTo(accepts, within(1e-12));
        assertThat(found.alarmsWithin(14)).isCloseTo(alarms, within(1e-12));
        assertThat(found.accepts() + found.alarms()).isCloseTo(1, within(1e-12));
        assertThat(found.acceptsWithin(0)).isZero();
        assertThat(found.acceptsWithin(1_000_000)).isEqualTo(found.accepts());
        assertThat(found.alarmsWithin(1_000_000)).isEqualTo(found.alarms());
        assertThat(found.error()).isLessThan(1e-10);
    }

    @Test
    void waldsBoundsHold() {
        // Wald 1947, section 3.2: with these limits α' ≤ α/(1 − β) and β' ≤ β/(1 − α), and α' + β' ≤ α + β
        SprtRunLength good = SprtRunLength.of(design, .05);
        SprtRunLength bad = SprtRunLength.of(design, .10);
        assertThat(good.alarms()).isLessThanOrEqualTo(.1 / .9).isGreaterThan(.05);
        assertThat(bad.accepts()).isLessThanOrEqualTo(.1 / .9).isGreaterThan(.05);
        assertThat(good.alarms() + bad.accepts()).isLessThanOrEqualTo(.2);
        assertThat(good.rate()).isEqualTo(.05);
        // Wald 1947, section 3.5: E(N) ≈ [(1 − L) h1 − L h0]/(p − s), which leaves out the overshoot
        double wald = (good.alarms() * design.h1() - good.accepts() * design.h0()) / (.05 - design.s());
        assertThat(good.cases()).isCloseTo(wald, Percentage.withPercentage(10));
        // the first case that can accept is the 41st, all successes
        assertThat(good.acceptsWithin(40)).isZero();
        assertThat(good.acceptsWithin(41)).isCloseTo(Math.pow(.95, 41), within(1e-12));
        assertThat(good.alarmsWithin(3)).isZero();
        assertThat(good.alarmsWithin(4)).isCloseTo(Math.pow(.05, 4), within(1e-15));
    }

    @Test
    void simulationAgrees() {
        SprtRunLength found = SprtRunLength.of(design, .07);
        SplittableRandom random = new SplittableRandom(3);
        int runs = 20_000;
        double sum = 0;
        double squares = 0;
        int accepted = 0;
        int early = 0;
        for (int run = 0; run < runs; run++) {
            double line = 0;
            int n = 0;
            while (line > -design.h0() && line < design.h1()) {
                line += design.weight(random.nextDouble() < .07, .05);
                n++;
            }
            sum += n;
            squares += (double) n * n;
            accepted += line < 0 ? 1 : 0;
            early += n <= found.median() ? 1 : 0;
        }
        assertThat(sum / runs).isCloseTo(found.cases(), within(4 * found.sd() / Math.sqrt(runs)));
        assertThat(Math.sqrt(squares / runs - sum / runs * sum / runs))
                .isCloseTo(found.sd(), Percentage.withPercentage(4));
        assertThat(accepted / (double) runs).isCloseTo(found.accepts(), within(2 / Math.sqrt(runs)));
        double atMedian = found.acceptsWithin((int) found.median()) + found.alarmsWithin((int) found.median());
        assertThat(early / (double) runs).isCloseTo(atMedian, within(2 / Math.sqrt(runs)));
        assertThat(atMedian).isGreaterThanOrEqualTo(.5);
        int before = (int) found.median() - 1;
        assertThat(found.acceptsWithin(before) + found.alarmsWithin(before)).isLessThan(.5);
    }

    @Test
    void gridOverOneRiskComesNearTheExactOne() {
        SprtRunLength exact = SprtRunLength.of(design, .05);
        SprtRunLength grid = SprtRunLength.of(design, new RiskMix(List.of(.05), List.of(1.0)), 1);
        assertThat(grid.cases()).isCloseTo(exact.cases(), Percentage.withPercentage(1));
        assertThat(grid.accepts()).isCloseTo(exact.accepts(), within(.005));
        assertThat(grid.alarms()).isCloseTo(exact.alarms(), within(.005));
        assertThat(grid.error()).isGreaterThan(0).isLessThan(.02 * exact.cases());
        assertThat(grid.rate()).isCloseTo(.05, within(1e-12));
        SprtRunLength worse = SprtRunLength.of(design, new RiskMix(List.of(.05), List.of(1.0)), design.oddsRatio());
        assertThat(worse.rate()).isCloseTo(.10, within(1e-12));
        assertThat(worse.alarms()).isCloseTo(SprtRunLength.of(design, .10).alarms(), within(.005));
        assertThatThrownBy(() -> SprtRunLength.of(design, new RiskMix(List.of(.05), List.of(1.0)), 0))
                .hasMessageContaining("odds multiplier");
        assertThatThrownBy(() -> SprtRunLength.of(design, 1)).hasMessageContaining("true rate");
    }
}
