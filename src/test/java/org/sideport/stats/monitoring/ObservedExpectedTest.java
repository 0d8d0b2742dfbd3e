package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

class ObservedExpectedTest {

    @Test
    void limitsOfEqualRisksAreBinomialQuantiles() {
        // R 4.2.2: qbinom(c(.025, .975), 100, .1) = 5 16; qbinom(c(.025, .975), 50, .1) = 1 9;
        // 1 - pbinom(14, 100, .1) = .07257297
        Integer[] failed = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15};
        ObservedExpected found = ObservedExpected.of(BinaryCusumTest.series(100, failed), .1, .95)
                .orElseThrow();
        assertThat(found.limits().lower()).isCloseTo(5 - 10, within(1e-9));
        assertThat(found.limits().upper()).isCloseTo(16 - 10, within(1e-9));
        assertThat(found.limits().level()).isEqualTo(.95);
        assertThat(found.points().get(49).lower()).isCloseTo(1 - 5, within(1e-9));
        assertThat(found.points().get(49).upper()).isCloseTo(9 - 5, within(1e-9));
        assertThat(found.points().get(49).statistic()).isCloseTo(10, within(1e-9));
        assertThat(found.excessProbability()).isCloseTo(.07257297, within(5.1e-9));
        assertThat(found.expected()).isCloseTo(10, within(1e-9));
        assertThat(found.observed()).isEqualTo(15);
        assertThat(found.saved()).isCloseTo(-5, within(1e-9));
        assertThat(found.warnings()).isEmpty();
        assertThat(found.points().get(0).observed()).isEqualTo(1);
        assertThat(found.points().get(15).observed()).isZero();
    }

    @Test
    void limitsOfUnequalRisksAreExact() {
        // by hand, risks .1 and .5: P(0) = .45, P(1) = .5, P(2) = .05
        BinarySeries two = new BinarySeries(7, List.of(true, true), List.of(.1, .5), List.of("said before"));
        ObservedExpected found = ObservedExpected.of(two, .2, .88).orElseThrow();
        assertThat(found.excessProbability()).isCloseTo(.05, within(1e-12));
        // quantiles at .06 and .94: 0 and 1 failures
        assertThat(found.limits().lower()).isCloseTo(-.6, within(1e-12));
        assertThat(found.limits().upper()).isCloseTo(.4, within(1e-12));
        assertThat(found.warnings()).hasSize(2).first().isEqualTo("said before");
        assertThat(found.warnings().get(1)).contains("0.60 failures are expected in 2 cases");
        assertThat(found.points().get(1).caseNumber()).isEqualTo(8);
        ObservedExpected wide = ObservedExpected.of(two, .2, .92).orElseThrow();
        assertThat(wide.limits().upper()).isCloseTo(1.4, within(1e-12));
        ObservedExpected none = ObservedExpected.of(
                        new BinarySeries(1, List.of(false, false), List.of(.1, .5), List.of()), .2, .9)
                .orElseThrow();
        assertThat(none.excessProbability()).isCloseTo(1, within(1e-12));
    }

    @Test
    void fiveExpectedAreEnoughToShowSomething() {
        BinarySeries series =
                new BinarySeries(1, Collections.nCopies(10, false), Collections.nCopies(10, .5), List.of());
        assertThat(ObservedExpected.of(series, .1, .95).orElseThrow().warnings())
                .isEmpty();
        assertThatThrownBy(() -> ObservedExpected.of(series, 0, .95)).hasMessageContaining("p0");
        assertThatThrownBy(() -> ObservedExpected.of(series, .1, 1)).hasMessageContaining("level");
    }
}
