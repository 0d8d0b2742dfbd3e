package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

/** Against simulation and, for one risk, against the exact chain. */
class RiskMixLimitsTest {

    private final LlrDesign design = new LlrDesign(2, 1, .05);
    private final RiskMix mix = new RiskMix(List.of(.02, .08, .25), List.of(.5, .3, .2));

    private long run(SplittableRandom random, double limit, long most) {
        double s = 0;
        for (long n = 1; n <= most; n++) {
            double u = random.nextDouble();
            double risk = u < .5 ? .02 : u < .8 ? .08 : .25;
            s = Math.max(0, s + design.weight(random.nextDouble() < risk, risk));
            if (s >= limit) {
                return n;
            }
        }
        return most + 1;
    }

    private double meanRun(double limit) {
        SplittableRandom random = new SplittableRandom(3);
        double sum = 0;
        for (int i = 0; i < 20_000; i++) {
            sum += run(random, limit, 1_000_000);
        }
        return sum / 20_000;
    }

    @Test
    void limitForARunLengthOverAMix() {
        double limit = RiskMixLimits.forRunLength(design, mix, 200);
        // standard error of a simulated mean about 200/√20000 = 1.4; the grid's error about 1 %
        assertThat(meanRun(limit)).isCloseTo(200, within(10.0));
        assertThat(meanRun(limit - .1)).isLessThan(195);
        assertThat(limit * 1000).isCloseTo(Math.rint(limit * 1000), within(1e-6));
    }

    @Test
    void limitForAHorizonOverAMix() {
        double limit = RiskMixLimits.forHorizon(design, mix, 60, .10);
        SplittableRandom random = new SplittableRandom(5);
        int at = 0;
        int below = 0;
        for (int i = 0; i < 20_000; i++) {
            at += run(random, limit, 60) <= 60 ? 1 : 0;
            below += run(random, limit - .1, 60) <= 60 ? 1 : 0;
        }
        // standard error √(.1 × .9/20000) = .002
        assertThat(at / 20_000.0).isCloseTo(.10, within(.01));
        assertThat(below / 20_000.0).isGreaterThan(.10);
    }

    @Test
    void mixOfOneRiskComesNearTheExactLimit() {
        RiskMix one = new RiskMix(List.of(.05), List.of(1.0));
        double limit = RiskMixLimits.forRunLength(design, one, 432);
        // worked out outside this program: p = .05, h = 2 has an average run length of 432
        assertThat(BinaryRunLength.of(new LlrDesign(2, limit, .05), .05).arl())
                .isCloseTo(432, Percentage.withPercentage(3));
        // another mix than 1 of the odds: half the odds need a lower limit for the chart of improvement
        double improvement = RiskMixLimits.forRunLength(new LlrDesign(.5, 1, .05), one, 432);
        assertThat(BinaryRunLength.of(new LlrDesign(.5, improvement, .05), .05).arl())
                .isCloseTo(432, Percentage.withPercentage(8));
    }

    @Test
    void wishesThatCannotBeMet() {
        assertThatThrownBy(() -> RiskMixLimits.forRunLength(design, mix, 1)).hasMessageContaining("1.0 cannot be met");
        assertThatThrownBy(() -> RiskMixLimits.forRunLength(design, mix, 1.1e7)).hasMessageContaining("cannot be met");
        assertThatThrownBy(() -> RiskMixLimits.forHorizon(design, mix, 0, .1)).hasMessageContaining("horizon of 0");
        assertThatThrownBy(() -> RiskMixLimits.forHorizon(design, mix, 1001, .1))
                .hasMessageContaining("1001");
        assertThatThrownBy(() -> RiskMixLimits.forHorizon(design, mix, 10, 0)).hasMessageContaining("false-signal");
        // one case can add ln 2 − ln(1 + .02) at most, so that any limit above has no false signal
        assertThat(RiskMixLimits.forHorizon(design, mix, 1, 1e-9)).isCloseTo(Math.log(2 / 1.02), within(.002));
    }

    @Test
    void neighboursArePutTogether() {
        RiskMix four = new RiskMix(List.of(.4, .1, .3, .2), List.of(.25, .25, .25, .25));
        RiskMix two = four.grouped(2);
        // by hand: (.1 + .2)/2 and (.3 + .4)/2
        assertThat(two.risks().get(0)).isCloseTo(.15, within(1e-12));
        assertThat(two.risks().get(1)).isCloseTo(.35, within(1e-12));
        assertThat(two.shares().get(0)).isCloseTo(.5, within(1e-12));
        assertThat(four.grouped(4)).isSameAs(four);
        assertThat(four.grouped(1).risks().get(0)).isCloseTo(.25, within(1e-12));
        assertThatThrownBy(() -> four.grouped(0)).hasMessageContaining("0 groups");
        // one common risk takes two of three groups' room; no group stays empty
        RiskMix skew = new RiskMix(List.of(.1, .2, .3, .4), List.of(.85, .05, .05, .05)).grouped(3);
        assertThat(skew.risks()).hasSize(2);
        assertThat(skew.shares().stream().mapToDouble(x -> x).sum()).isCloseTo(1, within(1e-12));
        assertThat(skew.meanRisk()).isCloseTo(.85 * .1 + .05 * .9, within(1e-12));
        List<Double> many = new ArrayList<>();
        for (int i = 1; i <= 500; i++) {
            many.add(i / 2000.0);
        }
        RiskMix fine = RiskMix.of(many);
        assertThat(fine.grouped(40).meanRisk()).isCloseTo(fine.meanRisk(), within(1e-12));
        LlrDesign chart = new LlrDesign(2, 1.5, .1);
        assertThat(BinaryRunLength.of(chart, fine.grouped(40), 1).arl())
                .isCloseTo(BinaryRunLength.of(chart, fine.grouped(120), 1).arl(), Percentage.withPercentage(1));
    }
}
